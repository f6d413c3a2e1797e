// Speaks notes: records in the browser and sends. A recording stays in hand until the server has it; one that
// could not be sent can be sent again or saved to the phone, and the next note can be spoken meanwhile.

import { refresh } from "./progress.js";

const bench = document.querySelector("[data-bench]");
const part = (name) => bench.querySelector(`[data-${name}]`);
const KINDS = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"];
const ENDINGS = { "audio/webm": "webm", "audio/ogg": "ogg", "audio/mp4": "m4a" };
const SLICE_MS = 1000; // hand the pieces over every second, so that a dying recorder loses one second at most

let recorder = null;
let sending = false;
const unsent = []; // what is not with the server yet: {blob, key, at, name, url}

function show(state, text) {
  const recording = state === "recording";
  bench.dataset.state = state;
  part("state").textContent = text;
  part("speak").textContent = recording ? "End the note" : "Speak a note";
  part("speak").classList.toggle("stop", recording);
  part("speak").disabled = state === "asking";
  part("meter").hidden = !recording;
  part("retry").hidden = recording || unsent.length === 0;
  part("saves").replaceChildren(...(recording ? [] : unsent.map(saveLink)));
}

function saveLink(note) {
  const link = document.createElement("a");
  link.className = "button";
  link.href = note.url;
  link.download = note.name;
  link.textContent = `Save the note of ${note.at.toTimeString().slice(0, 5)} to this phone`;
  return link;
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
  show("asking", "Asking for the microphone…");
  const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
  const pieces = [];
  const at = new Date();
  recorder = new MediaRecorder(stream, { mimeType: KINDS.find((kind) => MediaRecorder.isTypeSupported(kind)) });
  recorder.addEventListener("dataavailable", ({ data }) => pieces.push(data));
  recorder.addEventListener("stop", () => {
    stream.getTracks().forEach((track) => track.stop());
    const type = recorder.mimeType;
    recorder = null;
    const blob = new Blob(pieces, { type });
    const name = `note-${at.toISOString().replaceAll(":", "-")}.${ENDINGS[type.split(";")[0]]}`;
    unsent.push({ blob, at, name, key: crypto.randomUUID(), url: URL.createObjectURL(blob) });
    sendAll();
  });
  recorder.start(SLICE_MS);
  show("recording", "Listening. Press again to end the note.");
  showLevel(stream);
}

async function send(note) {
  const form = new FormData();
  form.set("file", note.blob, note.name);
  form.set("recorded_at", note.at.toISOString());
  form.set("client_key", note.key);
  form.set("device", "browser");
  if (bench.dataset.who) form.set("who", bench.dataset.who);
  let answer;
  try {
    answer = await fetch(bench.dataset.bench, { method: "POST", body: form });
  } catch {
    throw new Error("the machine is out of reach.");
  }
  if (!answer.ok) throw new Error((await answer.json()).detail);
}

async function sendAll() {
  if (sending) return;
  sending = true;
  const tell = (state, text) => { if (!recorder) show(state, text); };
  try {
    while (unsent.length > 0) {
      const note = unsent[0];
      tell("sending", "Sending…");
      await send(note);
      unsent.splice(unsent.indexOf(note), 1);
      URL.revokeObjectURL(note.url);
    }
    tell("sent", "Sent. It is being heard now.");
    await refresh();
  } catch (error) {
    tell("kept", `Not sent, but kept on this page: ${error.message}`);
  } finally {
    sending = false;
  }
}

function speak() {
  if (recorder) return recorder.stop();
  return begin().catch((error) => {
    show("refused", `No microphone: ${error.message}. Allow it for this page, or send a file.`);
  });
}

if (bench && navigator.mediaDevices && window.MediaRecorder) {
  bench.hidden = false;
  part("speak").addEventListener("click", speak);
  part("retry").addEventListener("click", sendAll);
  window.addEventListener("beforeunload", (event) => { if (recorder || unsent.length > 0) event.preventDefault(); });
  show("idle", "Ready.");
}
