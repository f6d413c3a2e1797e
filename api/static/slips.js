// One slip of paper for each recording on this phone: when, how long, how far it has come, and what can be done.

import * as kept from "./kept.js";
import { sendAgain } from "./send.js";

const WORDS = { listening: "Listening", kept: "Kept here", sending: "Sending", sent: "Sent", refused: "Refused" };

// How a recording stands, as one word: while nothing stands in its way, one that is kept is on its way.
export function standing(row) {
  if (row.state === "speaking") return "listening";
  return row.state === "kept" && !row.reason ? "sending" : row.state;
}

export function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inside);
  return element;
}

export const stamp = (kind) => make("span", { class: `stamp ${kind}` }, WORDS[kind]);

export function length(seconds) {
  const whole = Math.round(seconds);
  return whole < 60 ? `${whole} s` : `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, "0")} s`;
}

function what(row) {
  if (kept.isPhoto(row)) return row.place ? `photo of the ${row.place}` : "photo";
  return length(row.seconds);
}

export function save(file) {
  const url = URL.createObjectURL(file);
  make("a", { href: url, download: file.name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

async function see(row, place) {
  const url = URL.createObjectURL(await kept.asFile(row));
  const picture = make("img", { src: url, alt: row.place ? `Photo of the ${row.place}` : "Photo" });
  place.replaceChildren(picture);
  await picture.decode();
}

async function hear(row, place) {
  const url = URL.createObjectURL(await kept.asFile(row));
  const audio = make("audio", { controls: "", src: url, "aria-label": `Recording of ${row.at.slice(11, 16)}` });
  place.replaceChildren(audio);
  await audio.play();
}

export function key(text, press) {
  const button = make("button", { type: "button" }, text);
  button.addEventListener("click", () => press().catch((error) => { button.after(` ${error.message}`); }));
  return button;
}

function firstSlip(row) {
  const sound = make("div");
  const name = `${row.buildName}, ${row.at.slice(11, 16)}`;
  const keys = make("div", { class: "actions", role: "group", "aria-label": name });
  keys.append(
    kept.isPhoto(row) ? key("See it", () => see(row, sound)) : key("Hear it", () => hear(row, sound)),
    key("Send now", () => sendAgain(row.key)),
    key("Save as a file", async () => save(await kept.asFile(row))),
  );
  const time = make("time", { datetime: row.at }, row.at.slice(11, 16));
  const build = make("a", { href: `/builds/${encodeURIComponent(row.build)}` }, row.buildName);
  const header = make("header", {}, time, build, make("span", { class: "faint", "data-length": "" }));
  return make("li", { class: "sheet entry", "data-slip": row.key }, header, make("p", { "data-standing": "" }), sound, keys);
}

function tell(slip, row) {
  const kind = standing(row);
  if (slip.dataset.seen === `${kind} ${row.reason}` && kind !== "listening") return;
  slip.dataset.seen = `${kind} ${row.reason}`;
  slip.dataset.standing = kind;
  slip.querySelector("[data-length]").textContent = `${row.at.slice(0, 10)}, ${what(row)}`;
  slip.querySelector("[data-standing]").replaceChildren(stamp(kind), ` ${told(kind, row)}`);
  slip.querySelector(".actions").hidden = kind === "listening" || kind === "sent";
  if (kind === "sent") {
    const place = row.note === null ? `photo-${row.photo}` : `note-${row.note}`;
    slip.querySelector("header a").href = `/builds/${encodeURIComponent(row.build)}#${place}`;
    slip.querySelector("audio, img")?.remove();
  }
}

function told(kind, row) {
  if (kind === "sent") return `and confirmed: the machine keeps the same bytes (SHA-256 ${row.sha256.slice(0, 12)}…).`;
  if (kind === "kept") return `${row.reason} It goes by itself as soon as it can.`;
  return row.reason;
}

// Puts the slips of these recordings into a list; one that is there already is only brought up to date.
export function showSlips(list, rows) {
  const wanted = new Set(rows.map((row) => row.key));
  for (const slip of [...list.querySelectorAll("[data-slip]")]) if (!wanted.has(slip.dataset.slip)) slip.remove();
  for (const row of rows) {
    let slip = list.querySelector(`[data-slip="${CSS.escape(row.key)}"]`);
    if (!slip) list.append(slip = firstSlip(row));
    tell(slip, row);
  }
}
