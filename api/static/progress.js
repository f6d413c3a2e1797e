// Keeps a build's page up to date while its notes are heard and read: asks for their states and puts the
// server's own entry in place of one that changed, so that the page and a reload show the same thing.

import { readyValues } from "./sound.js";

const timeline = document.querySelector("[data-progress]");
const news = document.querySelector("[data-news]");
const SOON_MS = 700;
const LATER_MS = 8000; // nothing under way: somebody else at another bench may still add a note

let timer = 0;

function isPlaying(entry) {
  return [...(entry?.querySelectorAll("audio") ?? [])].some((audio) => !audio.paused);
}

async function replace(note) {
  const answer = await fetch(note.entry);
  if (!answer.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector("[data-entry]");
  const old = timeline.querySelector(`[data-entry="${CSS.escape(String(note.id))}"]`);
  if (isPlaying(old)) return;
  readyValues(fresh);
  timeline.querySelector("[data-empty]")?.remove();
  if (old) old.replaceWith(fresh);
  else timeline.insertBefore(fresh, entryAfter(fresh));
  if (note.finished) news.textContent = `The note of ${fresh.querySelector("time").textContent} was ${note.state}.`;
}

const timeOf = (entry) => Date.parse(entry.querySelector("header time").dateTime);

function entryAfter(fresh) {
  return [...timeline.querySelectorAll(".entry")].find((entry) => timeOf(entry) > timeOf(fresh)) ?? null;
}

// Puts the server's own entry of a photo where it belongs, unless it stands there already.
export async function showPhoto(build, photo) {
  if (!timeline || document.getElementById(`photo-${photo}`)) return;
  const answer = await fetch(`/builds/${encodeURIComponent(build)}/photos/${photo}`);
  if (!answer.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector(".entry");
  timeline.querySelector("[data-empty]")?.remove();
  timeline.insertBefore(fresh, entryAfter(fresh));
}

function changed(note) {
  const entry = timeline.querySelector(`[data-entry="${CSS.escape(String(note.id))}"]`);
  return entry?.dataset.state !== note.state;
}

export async function refresh() {
  if (!timeline) return;
  clearTimeout(timer);
  let pause = LATER_MS;
  try {
    const answer = await fetch(timeline.dataset.progress);
    const { notes } = await answer.json();
    for (const note of notes.filter(changed)) await replace(note);
    if (notes.some((note) => !note.finished)) pause = SOON_MS;
  } catch {
    // The machine is out of reach: the page stays as it is and asks again later.
  }
  if (!document.hidden) timer = setTimeout(refresh, pause);
}

if (timeline) {
  document.addEventListener("visibilitychange", () => { if (!document.hidden) refresh(); });
  refresh();
}
