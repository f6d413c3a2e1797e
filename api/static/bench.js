// The bench page: hands never touch it. It listens all the time; a note begins when somebody speaks, or with any key,
// pedal or headset button, and ends by itself, with "end note", or with the key again.

import { canSpeak, hush, isSilent, isSpeaking, say, setSilent } from "./aloud.js";
import { BEHIND_S, OpenMicrophone } from "./open-microphone.js";
import { follow, showFirst } from "./cards.js";
import { refreshClocks } from "./clocks.js";
import * as kept from "./kept.js";
import { canRecord, Recording } from "./microphone.js";
import { play } from "./tones.js";
import { localTime } from "./when.js";

const bench = document.querySelector("[data-bench-page]");
const part = (name) => bench.querySelector(`[data-${name}]`);
const MARGIN_S = 10; // a note is ended this long before the machine's limit, and the next one begun
const DRAIN_MS = 1000 * BEHIND_S + 150; // what is recorded runs behind
const SHOWN_MS = 7000; // how long an outcome stands before the page says again that it listens
const STAYS = new Set(["query", "kept", "sending"]); // until the next note, or until it is otherwise
const BACK = "read back";

const WORDS = {
  idle: ["Microphone off", "Press anywhere, or any key, to open it"],
  asking: ["Opening", "Allow the microphone for this page"],
  listening: ["Listening", "Speak, or press any key"],
  recording: ["Recording", "“End note” or any key ends it, “cancel note” takes it back"],
  kept: ["Kept here", "It goes to the machine when it can"],
  sending: ["Sending", "Kept on this phone until it is there"],
  sent: ["Sent", "The machine has it, and reads it"],
  read: ["Read", "The card shows what was taken from it"],
  query: ["Query", "Look at the card, or correct it aloud"],
  cancelled: ["Cancelled", "The recording is kept, nothing is taken from it"],
  refused: ["Refused", ""],
  speaking: ["Speaking", "The microphone waits until it is said"],
};

let microphone = null;
let asking = false;
let recording = null; // {take: Recording or null until it has begun, by, number, first, began}
let last = null; // the last recording that ended: {key, number, first, standing, since}
let trouble = "";
let wakeLock = null;
let shown = "";
const firsts = new Map(); // what was heard first, by the number of the note on this line

function standing() {
  if (asking) return "asking";
  if (recording) return "recording";
  if (!microphone) return trouble ? "refused" : "idle";
  if (last && (performance.now() - last.since < SHOWN_MS || STAYS.has(last.standing))) return last.standing;
  return isSpeaking() ? "speaking" : "listening";
}

function show() {
  const state = standing();
  const [word, hint] = WORDS[state];
  const text = trouble || (state === "recording" ? recording.words || hint : last?.reason && state === last.standing ? last.reason : hint);
  if (part("hint").textContent !== text) part("hint").textContent = text;
  part("line").textContent = !microphone ? "" : microphone.heardByMachine ? "" : "Out of the machine’s reach: this phone listens by itself.";
  part("still").hidden = !(microphone && ["read", "query", "kept", "sent", "sending", "cancelled", "refused", "speaking"].includes(state));
  part("still").textContent = isSpeaking() ? "Speaking" : "Still listening";
  part("close").hidden = !microphone;
  if (state === shown) return;
  shown = state;
  bench.dataset.state = state;
  part("word").textContent = word;
  part("spoken-state").textContent = `${word}. ${text}`;
  if (!microphone) return;
  const seconds = play(microphone.context, state);
  if (state !== "recording") microphone.deafFor(seconds); // nothing of a note is to be missed
}

function about() {
  const { benchPage: build, buildName, who } = bench.dataset;
  const device = navigator.userAgentData?.platform ? `browser on ${navigator.userAgentData.platform}` : "browser";
  return { build, buildName, who: who ?? "", device };
}

// ---- a note ------------------------------------------------------------------------------------------

const listeners = {
  onPiece: (take) => { if (recording?.take === take && take.seconds > Number(bench.dataset.mostSeconds) - MARGIN_S) goOn(); },
  onTrouble: (take, error) => { trouble = `This phone cannot store it: ${error.message}. Keep this page open.`; show(); },
  onEnd: (take) => {
    trouble = "";
    if (recording?.take === take) recording = null; // the microphone was taken away
    show();
  },
};

async function begin(by, number) {
  if (!microphone) return;
  if (recording) { // heard by somebody else as well: the machine's ear is the better one
    if (recording.by !== "hand") recording.by = by;
    recording.number ??= number;
    return;
  }
  hush();
  const mine = { take: null, by, number, words: "", ending: false, cancelled: null };
  recording = mine;
  if (by === "hand") microphone.begin();
  show();
  const at = localTime(new Date(Date.now() - 1000 * BEHIND_S));
  mine.begun = Recording.begin(microphone.behind, { ...about(), at }, listeners).then((take) => { mine.take = take; });
  await mine.begun.catch((error) => {
    if (recording === mine) recording = null;
    trouble = `Cannot record: ${error.message}.`;
    show();
  });
  navigator.storage?.persist?.();
}

// At the machine's limit the next note begins before the last one ends: nothing said in between is lost.
async function goOn() {
  const full = recording;
  recording = null;
  await begin(full.by, null);
  full.take.end();
}

// Ends the note; one ended by hand goes on for as long as the recording runs behind.
async function end(by, drain = DRAIN_MS) {
  const mine = recording;
  if (!mine) return;
  recording = null;
  if (by === "hand" || by === "word") microphone?.finish();
  if (by === "machine") microphone?.levels.finish();
  await mine.begun;
  if (!mine.take) return;
  if (mine.cancelled) await kept.cancel(mine.take.row.key, mine.cancelled);
  last = { key: mine.take.row.key, number: mine.number, standing: "sending", since: performance.now(), reason: "", told: false };
  show();
  if (drain > 0) await new Promise((resolve) => { setTimeout(resolve, drain); });
  await mine.take.end();
}

function cancel(words) {
  if (!recording) return;
  recording.cancelled = words;
  end("hand", 0);
}

// ---- what is heard at once ---------------------------------------------------------------------------

function heard(message) {
  const current = recording && (recording.number === message.number);
  const ended = last && last.number === message.number;
  if (current && message.text) recording.words = message.text;
  if (!message.whole || !message.text) { show(); return; }
  if (!firsts.has(message.number) && message.commands.includes("photo")) wantPhoto(message.place);
  if (current || ended) {
    const first = showFirst(message.card);
    if (message.answer && firsts.get(message.number)?.came !== message.answer) sayLater(message.answer);
    firsts.set(message.number, first);
    document.dispatchEvent(new CustomEvent("card-shown", { detail: { number: message.number, at: performance.now() } }));
  }
  if (current) obey(message);
  show();
}

// What is said of the note itself. The sound runs a second behind, and hearing it took about as long.
function obey({ commands, text }) {
  if (commands.includes("cancel")) {
    recording.cancelled = text.slice(-60);
    end("word");
  } else if (commands.includes("end")) end("word");
}

const sayings = []; // nothing is said into a note: it waits for its end

function sayLater(text) {
  if (text) sayings.push(text);
  sayNow();
}

function sayNow() {
  while (!recording && sayings.length > 0) say(sayings.shift());
}

function wantPhoto(place) {
  const detail = { ...about(), place: place || "" };
  document.dispatchEvent(new CustomEvent("photo-wanted", { detail }));
}

// ---- what becomes of it ------------------------------------------------------------------------------

async function followRows() {
  if (!last) return;
  const row = await kept.get(last.key);
  if (!row || last.key !== row.key) return;
  if (row.state === "sent" && !last.told) {
    last.told = true;
    set("sent");
    const mine = last;
    const data = await follow(row.build, row.note, firsts.get(mine.number) ?? null, () => last === mine && !recording?.words);
    if (last === mine) set(data.outcome, data.outcome === "refused" ? "It could not be read. The recording is kept." : "");
    tellAloud(data);
    refreshClocks();
  } else if (row.state === "refused") set("refused", row.reason);
  else if (row.state === "kept") {
    const stuck = (await kept.unsent()).find(({ state, reason }) => state === "kept" && reason); // the oldest goes first
    if (last?.key === row.key) set(stuck ? "kept" : "sending", stuck?.reason ?? "");
  }
}

function set(state, reason = "") {
  if (last.standing !== state) last.since = performance.now();
  Object.assign(last, { standing: state, reason });
  show();
}

function tellAloud({ outcome, came, queries, facts, changed, cautions }) {
  if (outcome === "cancelled") { sayLater("Cancelled."); return; }
  if (outcome === "refused") sayLater("The note could not be read. The recording is kept.");
  sayLater(came);
  if (changed) sayLater(`Changed on the second hearing: ${facts || "no step"}.`);
  else if (localStorage.getItem(BACK) === "yes") sayLater(facts);
  if (queries) sayLater(`Query. ${queries}.`);
  sayLater(cautions);
}

// ---- the microphone ----------------------------------------------------------------------------------

async function open() {
  asking = true;
  trouble = "";
  show();
  try {
    microphone = await OpenMicrophone.open(bench.dataset.benchPage, {
      onBegin: begin,
      onEnd: (by) => { if (recording?.by === by) end(by, 0); }, // the silence that ended it was longer than the delay
      onHeard: heard,
      onTrouble: (why) => { part("hint").textContent = why; },
      onLine,
      onLevel: (level) => { part("meter").value = Math.min(1, 5 * level); },
      onLost: close,
    });
    if (isSpeaking()) microphone.setDeaf(true); // what is being read aloud already is no note
  } catch (error) {
    trouble = `No microphone: ${error.message}. Allow it for this page, or send a file below.`;
  }
  asking = false;
  document.dispatchEvent(new CustomEvent("bench-open", { detail: { open: Boolean(microphone) } }));
  await stayAwake();
  holdHeadset();
  show();
}

// Without the machine the phone goes on by itself; with it, the machine counts the notes anew.
function onLine(is) {
  if (is) {
    firsts.clear();
    for (const note of [recording, last]) if (note) note.number = null;
  } else if (recording?.by === "machine") {
    recording.by = "phone";
    microphone.levels.begin();
  } else if (!recording && microphone?.levels.speaking) begin("phone", null);
  show();
}

async function close() {
  if (recording) await end("hand");
  if (microphone) play(microphone.context, "idle");
  const old = microphone;
  microphone = null;
  last = null;
  setTimeout(() => old?.close(), 300);
  wakeLock?.release();
  wakeLock = null;
  show();
}

async function stayAwake() {
  if (!microphone || document.hidden || !navigator.wakeLock || (wakeLock && !wakeLock.released)) return;
  wakeLock = await navigator.wakeLock.request("screen").catch(() => null); // refused on a low battery: not in our hands
}

// ---- ways to begin and end by hand -------------------------------------------------------------------

function press() {
  if (asking) return;
  if (!microphone) open();
  else if (recording) end("hand");
  else begin("hand", null);
}

// Keys that move about the page, or belong to the browser, are left alone; every other one is the pedal.
const NOT_PEDALS = new Set(["Tab", "Shift", "Control", "Alt", "AltGraph", "Meta", "CapsLock", "NumLock", "ScrollLock", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End", "ContextMenu", "PrintScreen", "Pause", "Fn", "Dead", "Process", "Unidentified"]);
const isControl = (element) => element.closest?.("a, button, input, textarea, select, summary, dialog, audio, [role=button]");

function key(event) {
  if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || NOT_PEDALS.has(event.key) || /^F\d+$/.test(event.key)) return;
  if (event.key === "Escape") { cancel("the Escape key"); return; }
  if (isControl(event.target) && event.target !== part("touch")) return;
  event.preventDefault();
  press();
}

// The button of a headset is told only to a page that plays something.
function holdHeadset() {
  const silence = part("silence");
  if (!microphone || !navigator.mediaSession) return;
  silence.play().catch(() => {}); // then the headset's button does nothing; every other way is still there
  navigator.mediaSession.playbackState = "playing";
  for (const action of ["play", "pause", "stop", "nexttrack", "previoustrack", "togglemicrophone", "hangup"]) {
    try {
      navigator.mediaSession.setActionHandler(action, () => { silence.play().catch(() => {}); press(); });
    } catch {
      // This browser does not know the action.
    }
  }
}

// ---- the page ----------------------------------------------------------------------------------------

function toggle(name, is, set) {
  const button = part(name);
  const tell = () => button.setAttribute("aria-pressed", String(is()));
  button.addEventListener("click", () => { set(!is()); tell(); });
  tell();
}

document.addEventListener("aloud", ({ detail }) => {
  microphone?.setDeaf(detail.speaking);
  show();
});
document.addEventListener("clock-near", ({ detail }) => {
  if (!microphone) return;
  const seconds = play(microphone.context, "near");
  if (!recording) microphone.deafFor(seconds);
  sayLater(detail.said);
});

document.addEventListener("to-say", ({ detail }) => sayLater(detail.said));
document.addEventListener("photo-kept", ({ detail }) => sayLater(detail.place ? `Photo of the ${detail.place} kept.` : "Photo kept."));
document.addEventListener("photo-failed", ({ detail }) => {
  part("hint").textContent = `No photo: ${detail.reason}`;
  sayLater(`No photo. ${detail.reason}`);
});

toggle("silent", isSilent, setSilent);
toggle("back", () => localStorage.getItem(BACK) === "yes", (yes) => localStorage.setItem(BACK, yes ? "yes" : "no"));
part("silent").hidden = part("back").hidden = !canSpeak;

if (canRecord && window.AudioWorkletNode) {
  part("touch").hidden = false;
  part("touch").addEventListener("click", press);
  part("close").addEventListener("click", close);
  addEventListener("keydown", key);
  document.addEventListener("visibilitychange", stayAwake);
  addEventListener("beforeunload", (event) => { if (recording || trouble) event.preventDefault(); });
  kept.onChange(() => { followRows(); });
  setInterval(() => { show(); sayNow(); }, 500);
  show();
} else {
  part("none").hidden = false;
  part("file").open = true;
}
