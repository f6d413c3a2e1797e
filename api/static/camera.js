// Photos without touching the phone: "photo of the left scroll" (or the button) shows what the camera sees, counts
// down aloud, and takes the picture. It is on this phone before anything else happens to it (kept.js), and goes to
// the machine the way recordings do (send.js), with its place.
//
// Whoever hears the words dispatches on the document: new CustomEvent("photo-wanted", {detail: {place, build,
// buildName, who, device}}). What the detail leaves out is taken from the page's [data-camera]. "photo-kept" follows
// with {key, place, build} when the picture is on the phone, "photo-failed" with {reason} when there is none.

import * as kept from "./kept.js";
import { showPhoto } from "./progress.js";
import { send } from "./send.js";
import { make } from "./slips.js";
import { localTime } from "./when.js";

const COUNT_FROM = 3;
const STEP_MS = 1000;
const SHOWN_MS = 1500;
const STILL_MS = 3000; // some cameras never come back with a still
const QUALITY = 0.92;
const EARLIEST = Date.UTC(2000, 0); // a file older than that has a clock that was never set

const camera = document.querySelector("[data-camera]");
let shooting = null; // the one that is under way: {cancelled, now}

const nameOf = (place) => (place ? `Photo of the ${place}` : "Photo");
const tell = (name, detail) => document.dispatchEvent(new CustomEvent(name, { detail }));

function beep(sounds, hertz, seconds) {
  if (!sounds) return;
  const [tone, level] = [sounds.createOscillator(), sounds.createGain()];
  tone.frequency.value = hertz;
  level.gain.setValueAtTime(0.25, sounds.currentTime);
  level.gain.exponentialRampToValueAtTime(0.001, sounds.currentTime + seconds);
  tone.connect(level).connect(sounds.destination);
  tone.start();
  tone.stop(sounds.currentTime + seconds);
}

function stage(place) {
  const part = {
    video: make("video", { muted: "", playsinline: "", "aria-hidden": "true" }),
    count: make("p", { class: "count", role: "status", "aria-live": "assertive" }),
    now: make("button", { type: "button", class: "main" }, "Take it now"),
    cancel: make("button", { type: "button" }, "No photo"),
  };
  part.video.muted = true;
  const title = make("h2", { id: "camera-title" }, nameOf(place));
  const dialog = make("dialog", { class: "camera", "aria-labelledby": "camera-title" },
    title, make("div", { class: "finder" }, part.video, part.count), make("p", { class: "actions" }, part.now, part.cancel));
  document.body.append(dialog);
  dialog.showModal();
  return { dialog, ...part };
}

const wait = (ms, shot) => new Promise((resolve) => {
  const timer = setTimeout(resolve, ms);
  shot.skip = () => { clearTimeout(timer); resolve(); };
});

async function countDown(shown, shot, sounds) {
  for (let left = COUNT_FROM; left > 0 && !shot.now && !shot.cancelled; left -= 1) {
    shown.count.textContent = String(left);
    beep(sounds, 660, 0.15);
    await wait(STEP_MS, shot);
  }
}

const inTime = (promise, ms) => Promise.race([
  promise, new Promise((_, reject) => { setTimeout(() => reject(new Error("the camera took too long")), ms); }),
]);

function frameOf(video) {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
  canvas.getContext("2d").drawImage(video, 0, 0);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("the picture could not be made"))), "image/jpeg", QUALITY);
  });
}

// A still uses all of the camera's pixels; where there is none, the picture is a frame of what was shown.
async function picture(stream, video) {
  if (window.ImageCapture) {
    try {
      const blob = await inTime(new ImageCapture(stream.getVideoTracks()[0]).takePhoto(), STILL_MS);
      if (blob.size > 0 && blob.type.startsWith("image/")) return blob;
    } catch {
      // falls through to the frame
    }
  }
  return frameOf(video);
}

function about({ place, build, buildName, who, device } = {}) {
  const page = camera?.dataset ?? {};
  const key = build ?? page.camera;
  if (!key) throw new Error("no build is open here");
  return {
    key: crypto.randomUUID(), build: key, buildName: buildName ?? (key === page.camera ? page.buildName : key),
    who: who ?? page.who ?? "", device: device ?? "browser", place: place?.trim() || null,
  };
}

async function keep(photo, blob) {
  await kept.keepWhole({ ...photo, type: blob.type || "image/jpeg" }, await blob.arrayBuffer());
  navigator.storage?.persist?.();
  send({ now: true });
  tell("photo-kept", { key: photo.key, place: photo.place, build: photo.build });
}

async function shoot(photo, shown, shot) {
  const sounds = window.AudioContext ? new AudioContext() : null;
  let stream = null;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      video: { facingMode: { ideal: "environment" }, width: { ideal: 4096 }, height: { ideal: 3072 } },
    });
    shown.video.srcObject = stream;
    await shown.video.play();
    await countDown(shown, shot, sounds);
    if (shot.cancelled) return;
    shown.count.textContent = "";
    const at = localTime(new Date());
    const blob = await picture(stream, shown.video);
    beep(sounds, 1320, 0.3);
    shown.video.pause();
    await keep({ ...photo, at, guessed: false }, blob);
    shown.dialog.querySelector(".actions").hidden = true;
    shown.count.dataset.kept = "";
    shown.count.textContent = "Kept";
    await wait(SHOWN_MS, shot);
  } finally {
    stream?.getTracks().forEach((track) => track.stop());
    sounds?.close();
  }
}

async function take(detail) {
  if (shooting) return;
  const shot = shooting = { now: false, cancelled: false, skip: () => {} };
  const shown = stage(detail?.place);
  const close = () => { // the next one need not wait for the camera of this one
    if (shooting === shot) shooting = null;
    shown.dialog.close();
    shown.dialog.remove();
  };
  const stop = () => { shot.cancelled = true; shot.skip(); close(); };
  shown.now.addEventListener("click", () => { shot.now = true; shot.skip(); });
  shown.cancel.addEventListener("click", stop);
  shown.dialog.addEventListener("cancel", stop); // Escape
  try {
    await shoot(about(detail), shown, shot);
  } catch (error) {
    fail(error.name === "NotAllowedError" ? "Allow the camera for this page, or add a photo as a file." : error.message);
  } finally {
    close();
  }
}

function fail(reason) {
  const told = camera?.querySelector("[data-told]");
  if (told) told.textContent = `No photo: ${reason}`;
  tell("photo-failed", { reason });
}

// Photos chosen as files are kept here first as well: their own times (EXIF) count, else the file's.
async function keepFiles(files) {
  for (const file of files) {
    const at = localTime(new Date(file.lastModified > EARLIEST ? file.lastModified : Date.now()));
    await keep({ ...about(), at, guessed: true }, file);
  }
}

function readyForm(form) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    keepFiles(form.elements.file.files).then(() => form.reset()).catch((error) => fail(error.message));
  });
}

export const canKeep = Boolean(window.indexedDB && navigator.locks && window.crypto?.subtle);
export const canShoot = Boolean(canKeep && navigator.mediaDevices && window.HTMLDialogElement);

document.addEventListener("photo-wanted", ({ detail }) => {
  if (canShoot) take(detail);
  else fail("This browser gives the page no camera: add a photo as a file.");
});

// The photos of this build that went home while the page was open.
async function showSent() {
  for (const row of await kept.all()) {
    if (kept.isPhoto(row) && kept.isSent(row) && row.build === camera.dataset.camera) await showPhoto(row.build, row.photo);
  }
}

if (camera && canKeep) {
  kept.onChange(() => showSent().catch(() => {})); // out of reach: it stands there after a reload
  document.querySelectorAll("form[data-photos]").forEach(readyForm);
  document.addEventListener("photo-kept", ({ detail }) => {
    camera.querySelector("[data-told]").textContent = `${nameOf(detail.place)} kept on this phone; it goes by itself.`;
  });
}
if (camera && canShoot) {
  camera.hidden = false;
  camera.addEventListener("submit", (event) => {
    event.preventDefault();
    tell("photo-wanted", { place: camera.elements.place.value });
  });
}
