// A question by voice: hear it, have it answered, and go to the page that shows and reads the answer.
// Nothing is kept of it: a question is no record.

const LONGEST_MS = 15_000;
const button = document.querySelector("[data-ask-aloud]");
const word = document.querySelector("[data-ask-state]");
let recorder = null;

function say(text) {
  word.textContent = text;
}

async function answer(pieces, type) {
  say("Working it out …");
  const build = document.querySelector("[name=build]").value;
  const address = `/api/ask/spoken${build ? `?build=${encodeURIComponent(build)}` : ""}`;
  const reply = await fetch(address, { method: "POST", headers: { "content-type": type }, body: new Blob(pieces) });
  const body = await reply.json();
  if (!reply.ok) throw new Error(body.detail);
  if (!body.heard) throw new Error("Nothing was heard: say it again, nearer to the microphone.");
  location.assign(`/ask?${new URLSearchParams({ q: body.heard, build })}`);
}

async function begin() {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
  const pieces = [];
  recorder = new MediaRecorder(stream);
  recorder.ondataavailable = (event) => pieces.push(event.data);
  recorder.onstop = () => {
    stream.getTracks().forEach((track) => track.stop());
    button.textContent = "Speak the question";
    answer(pieces, recorder.mimeType).catch((error) => say(error.message));
    recorder = null;
  };
  recorder.start();
  setTimeout(() => recorder?.stop(), LONGEST_MS);
  button.textContent = "End the question";
  say("Listening");
}

if (navigator.mediaDevices?.getUserMedia && window.MediaRecorder) {
  button.hidden = false;
  button.addEventListener("click", () => {
    if (recorder) recorder.stop();
    else begin().catch(() => say("The microphone is not allowed: allow it for this page, or type the question."));
  });
}
