// Speaks notes: the bench at the foot of a build's page. What is spoken is on this phone at once (microphone.js),
// goes to the machine by itself (send.js), and stands on the page as a slip until it is there.

import * as kept from "./kept.js";
import { canRecord, Recording } from "./microphone.js";
import { refresh } from "./progress.js";
import { save, showSlips, stamp, standing } from "./slips.js";

const bench = document.querySelector("[data-bench]");
const part = (name) => bench.querySelector(`[data-${name}]`);
const MARGIN_S = 10; // a note is ended this long before the machine's limit, and the next one begun

let stream = null;
let recording = null; // the one that listens
let asking = false;
let trouble = "";
let wakeLock = null;
let waited = false; // something was on its way while this page was open

const plural = (count, word) => `${count} ${word}${count === 1 ? "" : "s"}`;

// How things stand, and what to say of it: the microphone first, then what is on this phone.
function state(rows) {
  if (asking) return ["asking", "Asking for the microphone…"];
  if (recording) return ["listening", trouble || "Press again to end the note."];
  if (trouble) return ["refused", trouble];
  const of = (...kinds) => rows.filter((row) => kinds.includes(standing(row)));
  const [refused, held, going] = [of("refused"), of("kept"), of("sending", "listening")]; // its last second is coming in
  if (held.length > 0) return ["kept", `${plural(held.length, "note")} kept on this phone. ${held[0].reason}`];
  if (going.length > 0) return ["sending", plural(going.length, "note")];
  if (refused.length > 0) return ["refused", `${plural(refused.length, "note")} kept on this phone. ${refused[0].reason}`];
  return waited ? ["sent", "It is being heard now."] : ["idle", "Ready."];
}

async function show() {
  const rows = await kept.unsent();
  const arrived = waited && rows.length === 0 && bench.dataset.state !== "sent";
  waited ||= rows.length > 0;
  const [kind, text] = state(rows);
  const listening = kind === "listening";
  if (part("state").dataset.told !== kind + text) {
    part("state").dataset.told = kind + text;
    part("state").replaceChildren(...(["idle", "asking"].includes(kind) ? [] : [stamp(kind), " "]), text);
  }
  bench.dataset.state = kind;
  part("speak").textContent = listening ? "End the note" : "Speak a note";
  part("speak").classList.toggle("stop", listening);
  part("speak").disabled = kind === "asking";
  part("meter").hidden = !listening;
  part("count").hidden = rows.length === 0 || listening;
  part("count").textContent = `${rows.length} not sent yet`;
  showSlips(document.querySelector("[data-here]"), rows.filter((row) => row.build === bench.dataset.bench));
  if (arrived) await refresh();
}

function showLevel() {
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  const step = () => {
    if (!recording?.listening) return context.close();
    analyser.getFloatTimeDomainData(samples);
    part("meter").value = Math.min(1, 4 * Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length));
    return requestAnimationFrame(step);
  };
  step();
}

async function stayAwake() {
  if (!recording || document.hidden || !navigator.wakeLock || (wakeLock && !wakeLock.released)) return;
  wakeLock = await navigator.wakeLock.request("screen").catch(() => null); // refused on a low battery: not in our hands
  bench.dataset.awake = String(Boolean(wakeLock));
}

function sleep() {
  wakeLock?.release();
  wakeLock = null;
  delete bench.dataset.awake;
}

function about() {
  const { bench: build, buildName, who } = bench.dataset;
  const device = navigator.userAgentData?.platform ? `browser on ${navigator.userAgentData.platform}` : "browser";
  return { build, buildName, who: who ?? "", device };
}

const listeners = {
  onPiece: (from) => {
    if (from === recording && from.seconds > Number(bench.dataset.mostSeconds) - MARGIN_S) goOn();
  },
  onTrouble: (held, error) => {
    trouble = `This phone cannot store it: ${error.message}. Keep this page open, or save the note as a file.`;
    part("save").hidden = false;
    part("save").onclick = async () => save(await held.asFile());
    show();
  },
  onEnd: (ended) => {
    trouble = "";
    part("save").hidden = true;
    if (recording === ended) letGo(); // the microphone was taken away
    show();
  },
};

function letGo() {
  recording = null;
  stream?.getTracks().forEach((track) => track.stop());
  stream = null;
  sleep();
}

async function begin() {
  asking = true;
  trouble = "";
  await show();
  try {
    stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    recording = await Recording.begin(stream, about(), listeners);
  } finally {
    asking = false;
  }
  navigator.storage?.persist?.(); // asks the browser not to clear what is kept here when room gets short
  showLevel();
  await Promise.all([stayAwake(), show()]);
}

// At the machine's limit the next note begins before the last one ends: nothing said in between is lost.
async function goOn() {
  const full = recording;
  recording = null;
  recording = await Recording.begin(stream, about(), listeners);
  showLevel();
  full.end();
}

function speak() {
  if (recording) {
    const { ended } = recording;
    recording.end();
    letGo();
    return ended;
  }
  return begin().catch((error) => {
    letGo();
    trouble = `Cannot record: ${error.message}. Allow the microphone for this page, or send a file.`;
    return show();
  });
}

if (bench && canRecord) {
  bench.hidden = false;
  part("speak").addEventListener("click", speak);
  document.addEventListener("visibilitychange", stayAwake);
  addEventListener("beforeunload", (event) => { if (recording || trouble) event.preventDefault(); });
  kept.onChange(show);
}
