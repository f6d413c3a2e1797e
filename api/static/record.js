// Speaks a note: records in the browser and sends it. The recording stays in hand until the server has it;
// a failed sending offers to try again or to save it to this phone, and never throws it away by itself.

import { refresh } from "./progress.js";

const bench = document.querySelector("[data-bench]");
const part = (name) => bench.querySelector(`[data-${name}]`);
const KINDS = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"];
const ENDINGS = { "audio/webm": "webm", "audio/ogg": "ogg", "audio/mp4": "m4a" };
const SLICE_MS = 1000; // hand the pieces over every second, so that a dying recorder loses one second at most

let recorder = null;
let note = null; // what is not with the server yet: {blob, key, at, url}

const WORDS = {
  idle: "Ready.",
  asking: "Asking for the microphone…",
  recording: "Listening. Press again to end the note.",
  sending: "Sending…",
  kept: "",
  sent: "Sent. It is being heard now.",
};

function show(state, text = WORDS[state]) {
  bench.dataset.state = state;
  part("state").textContent = text;
  part("speak").textContent = state === "recording" ? "End the note" : "Speak a note";
  part("speak").classList.toggle("stop", state === "recording");
  part("speak").disabled = state === "asking" || state === "sending" || state === "kept";
  part("retry").hidden = state !== "kept";
  part("save").hidden = state !== "kept";
  part("meter").hidden = state !== "recording";
}

function showLevel(stream) {
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  const step = () => {
    if (recorder?.state !== "recording") return context.close();
    analyser.getFloatTimeDomainData(samples);
    part("meter").value = Math.min(1, 4 * Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length));
    return requestAnimationFrame(step);
  };
  step();
}

async function begin() {
  show("asking");
  const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
  const pieces = [];
  const at = new Date();
  recorder = new MediaRecorder(stream, { mimeType: KINDS.find((kind) => MediaRecorder.isTypeSupported(kind)) });
  recorder.addEventListener("dataavailable", ({ data }) => pieces.push(data));
  recorder.addEventListener("stop", () => {
    stream.getTracks().forEach((track) => track.stop());
    const kind = recorder.mimeType;
    recorder = null;
    const blob = new Blob(pieces, { type: kind });
    const name = `note-${at.toISOString().replaceAll(":", "-")}.${ENDINGS[kind.split(";")[0]]}`;
    note = { blob, at, name, key: crypto.randomUUID(), url: URL.createObjectURL(blob) };
    return send();
  });
  recorder.start(SLICE_MS);
  show("recording");
  showLevel(stream);
}

async function send() {
  show("sending");
  const form = new FormData();
  form.set("file", note.blob, note.name);
  form.set("recorded_at", note.at.toISOString());
  form.set("client_key", note.key);
  form.set("device", "browser");
  try {
    const answer = await fetch(bench.dataset.bench, { method: "POST", body: form });
    if (!answer.ok) throw new Error((await answer.json()).detail);
    forget();
    show("sent");
    await refresh();
  } catch (error) {
    keep(error);
  }
}

function keep(error) {
  part("save").href = note.url;
  part("save").download = note.name;
  show("kept", `Not sent, but kept here: ${error.message}`);
}

function forget() {
  URL.revokeObjectURL(note.url);
  note = null;
}

function speak() {
  if (recorder) return recorder.stop();
  return begin().catch((error) => show("idle", `No microphone: ${error.message}. Allow it for this page, or send a file.`));
}

if (bench && navigator.mediaDevices && window.MediaRecorder) {
  bench.hidden = false;
  part("speak").addEventListener("click", speak);
  part("retry").addEventListener("click", send);
  window.addEventListener("beforeunload", (event) => { if (recorder || note) event.preventDefault(); });
  show("idle");
}
