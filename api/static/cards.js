// The card of the last note: as it was heard first, and then as it is kept. What differs between the two is said.

const SOON_MS = 350;
const LATER_MS = 3000;

const place = document.querySelector("[data-last]");

function parsed(html) {
  return new DOMParser().parseFromString(html, "text/html").querySelector("[data-card]");
}

function put(card) {
  place.querySelector("[data-card]")?.remove();
  place.querySelector("[data-none-yet]")?.remove();
  place.append(card);
}

export function showFirst(html) {
  const card = parsed(html);
  put(card);
  return card.dataset;
}

const wait = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });

async function keptCard(build, note) {
  const answer = await fetch(`/builds/${encodeURIComponent(build)}/bench/notes/${note}`, { cache: "no-store" });
  if (!answer.ok) throw new Error(`the machine answered ${answer.status}`);
  return parsed(await answer.text());
}

// Waits until a kept note is read; `first` is the first card's data or null. Returns the kept card's data, with
// `changed` for what the second hearing changed. `isLast` tells whether the card may still be put in the last place.
export async function follow(build, note, first, isLast) {
  let pause = SOON_MS;
  for (;;) {
    try {
      const card = await keptCard(build, note);
      if (card.dataset.state === "read" || card.dataset.state === "failed") return settle(build, note, card, first, isLast);
      pause = SOON_MS;
    } catch {
      pause = LATER_MS; // out of reach: the note is kept there, and its card comes later
    }
    await wait(pause);
  }
}

async function settle(build, note, card, first, isLast) {
  const differs = Boolean(first) && first.facts !== card.dataset.facts && card.dataset.outcome !== "cancelled";
  if (differs) {
    const told = card.querySelector("[data-changed]");
    told.hidden = false;
    told.textContent = `Changed on the second hearing. At first: ${first.facts || "no step"}.`;
  }
  // A question is no record: its answer stays on the card.
  const answered = Boolean(first?.came) && !card.dataset.facts && !card.dataset.came && card.dataset.outcome === "read";
  if (isLast() && !answered) put(card);
  if (isLast() && answered) place.querySelector("[data-card] .stamp")?.replaceWith(card.querySelector(".stamp"));
  const answer = await fetch(`/api/notes/${note}/steps`, { cache: "no-store" }).catch(() => null);
  const steps = answer?.ok ? await answer.json() : [];
  document.dispatchEvent(new CustomEvent("note-read", { detail: { noteId: note, steps } }));
  return { ...card.dataset, changed: differs };
}
