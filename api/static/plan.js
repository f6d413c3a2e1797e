// The plan of a build: after each note that was read, its part of the page is fetched anew, and what the note ticked
// off and what comes next is said aloud.

import { canSpeak, say } from "./aloud.js";

const place = () => document.querySelector("[data-plan]");

function ready(part) {
  const button = part.querySelector("[data-say-next]");
  if (!button || !canSpeak) return;
  button.hidden = false;
  button.addEventListener("click", () => say(part.querySelector("[data-next]").textContent));
}

async function refresh(note) {
  const old = place();
  const reply = await fetch(`/builds/${encodeURIComponent(old.dataset.plan)}/plan/part?note=${note}`, { cache: "no-store" });
  if (!reply.ok) return;
  const fresh = document.createRange().createContextualFragment(await reply.text()).firstElementChild;
  old.replaceWith(fresh);
  ready(fresh);
  say(fresh.dataset.say);
}

if (place()) {
  ready(place());
  // Out of the machine's reach the part stays as it was: it says how far the plan was when it was last seen.
  document.addEventListener("note-read", ({ detail }) => { refresh(detail.noteId).catch(() => {}); });
}
