// The recordings and photos that are still on this phone, and receipts of the last ones that were sent. What the
// machine refused can be moved to another build, saved as a file, or deleted when that is confirmed.

import * as kept from "./kept.js";
import { send } from "./send.js";
import { key, make, showSlips } from "./slips.js";

const part = (name) => document.querySelector(`[data-${name}]`);

async function builds() {
  let answer;
  try {
    answer = await fetch("/api/builds", { cache: "no-store" });
  } catch {
    throw new Error("The machine is out of reach: it knows the builds.");
  }
  if (!answer.ok) throw new Error((await answer.json().catch(() => ({}))).detail ?? `The machine answered ${answer.status}.`);
  return answer.json();
}

// Asks to which build, where the keys were.
async function askWhere(row, place) {
  const known = (await builds()).filter(({ key: build }) => build !== row.build);
  if (known.length === 0) throw new Error("There is no other build: begin it on the page of its mould.");
  const choice = make("select", {}, ...known.map(({ key: build, name }) => make("option", { value: build }, name)));
  const move = key("Move it", async () => {
    await kept.move(row.key, choice.value, choice.selectedOptions[0].textContent);
    send({ now: true });
  });
  place.replaceChildren(make("label", {}, "To which build? ", choice), move, key("Leave it", async () => offer(row, place)));
  choice.focus();
}

function askTwice(row, place) {
  const question = make("p", { class: "wide" }, "Delete it for ever? Nothing of it is with the machine. Save it as a file first if it may be wanted.");
  const keep = key("Keep it", async () => offer(row, place));
  const discard = key("Delete for ever", () => kept.discard(row.key));
  discard.classList.add("stop");
  place.replaceChildren(question, keep, discard);
  keep.focus();
}

function offer(row, place) {
  place.replaceChildren(
    key("Move to another build", () => askWhere(row, place)),
    key("Delete it", async () => askTwice(row, place)),
  );
}

function mend(row) {
  const slip = document.querySelector(`[data-slip="${CSS.escape(row.key)}"]`);
  const there = slip.querySelector("[data-mend]");
  if (row.state !== "refused") there?.remove();
  else if (!there) {
    const place = make("div", { class: "actions", role: "group", "aria-label": "What to do with it", "data-mend": "" });
    offer(row, place);
    slip.append(place);
  }
}

async function show() {
  const rows = await kept.all();
  const here = rows.filter((row) => !kept.isSent(row));
  const sent = rows.filter(kept.isSent).reverse();
  showSlips(part("here"), here);
  showSlips(part("receipts"), sent);
  here.forEach(mend);
  part("nothing").hidden = here.length > 0;
  part("all").hidden = here.length === 0;
  part("sent").hidden = sent.length === 0;
}

part("all").addEventListener("click", () => send({ now: true }));
kept.onChange(() => show().catch((error) => { part("told").textContent = `This phone's storage cannot be read: ${error.message}`; }));
