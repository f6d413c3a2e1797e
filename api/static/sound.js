// Plays a note's recording with its words lit, and the exact seconds behind a value.
//
// Markup: [data-recording=NOTE] holds an <audio> and words <span data-start data-end data-from data-to>;
// a value is [data-hear=NOTE][data-start][data-end] with [data-from][data-to] for its place in the text;
// without them it is the key for the whole note, which stands in for the browser's own controls.

const PAD_S = 0.05; // word times are good to about a twentieth of a second: do not clip the first sound

const recordingOf = (note) => document.querySelector(`[data-recording="${CSS.escape(note)}"]`);
const number = (element, name) => Number(element.dataset[name]);
const endOf = (value) => ("end" in value.dataset ? number(value, "end") + PAD_S : Infinity);

let playing = null; // the value that is sounding: {value, audio, end}

function light(recording, time) {
  for (const word of recording.querySelectorAll("[data-start]")) {
    word.classList.toggle("lit", time >= number(word, "start") && time < number(word, "end"));
  }
}

function stopValue() {
  if (!playing) return;
  const { value, audio } = playing;
  playing = null;
  audio.pause();
  value.classList.remove("playing");
  value.setAttribute("aria-pressed", "false");
}

const followed = new WeakSet(); // one loop a recording, however often it is stopped and started

function follow(audio) {
  const recording = audio.closest("[data-recording]");
  if (!recording || followed.has(audio)) return;
  followed.add(audio);
  const step = () => {
    if (playing?.audio === audio && audio.currentTime >= playing.end) stopValue();
    light(recording, audio.paused ? -1 : audio.currentTime);
    if (audio.paused) followed.delete(audio);
    else requestAnimationFrame(step);
  };
  step();
}

function markSource(recording, value) {
  document.querySelectorAll(".source").forEach((word) => word.classList.remove("source"));
  for (const word of recording.querySelectorAll("[data-from]")) {
    const inside = number(word, "from") < number(value, "to") && number(word, "to") > number(value, "from");
    word.classList.toggle("source", inside);
  }
}

async function ready(audio) {
  if (audio.readyState >= HTMLMediaElement.HAVE_METADATA) return;
  audio.preload = "auto";
  audio.load();
  await new Promise((resolve, reject) => {
    audio.addEventListener("loadedmetadata", resolve, { once: true });
    audio.addEventListener("error", () => reject(new Error("the recording could not be loaded")), { once: true });
  });
}

async function hear(value) {
  const again = playing?.value === value;
  stopValue();
  if (again) return;
  const recording = recordingOf(value.dataset.hear);
  const audio = recording?.querySelector("audio");
  if (!audio) return;
  document.querySelectorAll("audio").forEach((other) => other.pause());
  markSource(recording, value);
  await ready(audio);
  audio.currentTime = Math.max(0, (number(value, "start") || 0) - PAD_S);
  playing = { value, audio, end: endOf(value) };
  value.classList.add("playing");
  value.setAttribute("aria-pressed", "true");
  await audio.play();
}

function complain(error, near) {
  const place = near.closest("[data-entry], main")?.querySelector("[data-told]");
  if (place) place.textContent = `Cannot play: ${error.message}.`;
}

document.addEventListener("click", (event) => {
  const value = event.target.closest("[data-hear]");
  if (value && !event.ctrlKey && !event.metaKey && recordingOf(value.dataset.hear)) {
    event.preventDefault();
    hear(value).catch((error) => complain(error, value));
    return;
  }
  const word = event.target.closest("[data-recording] span[data-start]");
  if (word) {
    stopValue();
    const audio = word.closest("[data-recording]").querySelector("audio");
    ready(audio)
      .then(() => { audio.currentTime = number(word, "start"); return audio.play(); })
      .catch((error) => complain(error, word));
  }
});

document.addEventListener("keydown", (event) => {
  const value = event.target.closest?.("[data-hear][role=button]");
  if (value && event.key === " ") { event.preventDefault(); value.click(); }
  if (event.key === "Escape") stopValue();
});

// Media events do not bubble: listen while they travel down, so that entries added later are heard too.
document.addEventListener("play", (event) => follow(event.target), true);
// A pause is told late: by then the next value of the same recording may be sounding already.
document.addEventListener("pause", ({ target }) => { if (playing?.audio === target && target.paused) stopValue(); }, true);

export function readyValues(root) {
  for (const value of root.querySelectorAll("[data-hear]")) {
    value.setAttribute("role", "button");
    value.setAttribute("aria-pressed", "false");
    value.hidden = false;
  }
  for (const audio of root.querySelectorAll("[data-recording] audio")) audio.controls = false;
}

readyValues(document);
