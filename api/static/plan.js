// The plan of a build: after each note that was read, its part of the page is fetched anew, and what the note ticked
// off and what comes next is said aloud. On the bench page that waits until nobody is recorded ("to-say").

import { canSpeak, say } from "./aloud.js";

const place = () => document.querySelector("[data-plan]");
const atBench = document.querySelector("[data-bench-page]");

function tell(text) {
  if (atBench) document.dispatchEvent(new CustomEvent("to-say", { detail: { said: text } }));
  else say(text);
}

function ready(part) {
  const button = part.querySelector("[data-say-next]");
  const form = part.querySelector("form");
  if (button && canSpeak) {
    button.hidden = false;
    button.addEventListener("click", () => tell(part.querySelector("[data-next]").textContent));
  }
  if (form && atBench) form.addEventListener("submit", skip); // the open microphone must not go with the page
}

async function skip(event) {
  event.preventDefault();
  const form = event.currentTarget;
  const reply = await fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)) }).catch(() => null);
  if (reply?.ok) {
    await refresh();
    tell(place().querySelector("[data-next]").textContent);
  } else tell("Not skipped: the machine is out of reach.");
}

async function refresh(note) {
  const old = place();
  const address = `/builds/${encodeURIComponent(old.dataset.plan)}/plan/part${note ? `?note=${note}` : ""}`;
  const reply = await fetch(address, { cache: "no-store" });
  if (!reply.ok) return;
  const fresh = document.createRange().createContextualFragment(await reply.text()).firstElementChild;
  old.replaceWith(fresh);
  ready(fresh);
  if (fresh.dataset.say) tell(fresh.dataset.say);
}

if (place()) {
  ready(place());
  // Out of the machine's reach the part stays as it was: it says how far the plan was when it was last seen.
  document.addEventListener("note-read", ({ detail }) => { refresh(detail.noteId).catch(() => {}); });
}
