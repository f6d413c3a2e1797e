// Reads aloud, where the browser can: answers, queries and warnings, one after the other. While it speaks, the open
// microphone must not hear it: "aloud" is told on the document, {speaking} true and then false.

const SILENT = "silent";
const LONGEST_MS = (text) => 4000 + 120 * text.length; // some browsers never tell the end
const voice = window.speechSynthesis;

let waiting = [];
let speaking = false;

export const canSpeak = Boolean(voice);
export const isSilent = () => localStorage.getItem(SILENT) === "yes";
export const isSpeaking = () => speaking;

export function setSilent(yes) {
  localStorage.setItem(SILENT, yes ? "yes" : "no");
  if (yes) hush();
}

function tell(yes) {
  speaking = yes;
  document.dispatchEvent(new CustomEvent("aloud", { detail: { speaking: yes } }));
}

const spoken = (text) => new Promise((resolve) => {
  const said = new SpeechSynthesisUtterance(text);
  const late = setTimeout(resolve, LONGEST_MS(text));
  said.onend = said.onerror = () => { clearTimeout(late); resolve(); };
  voice.speak(said);
});

async function speakAll() {
  tell(true);
  while (waiting.length > 0) await spoken(waiting.shift());
  tell(false);
}

// Says a text after what is being said; nothing in silent mode.
export function say(text) {
  if (!canSpeak || isSilent() || !text.trim()) return;
  waiting.push(text);
  if (!speaking) speakAll();
}

// Stops at once: somebody wants to speak.
export function hush() {
  waiting = [];
  voice?.cancel();
}

const answer = document.querySelector("[data-answer]");
const button = document.querySelector("[data-aloud]");

if (answer && button && canSpeak) {
  button.hidden = false;
  button.addEventListener("click", () => {
    hush();
    setSilent(false);
    say(answer.textContent);
  });
}
