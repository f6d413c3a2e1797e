// One recording: from the microphone into this phone's storage, a second at a time.

import * as kept from "./kept.js";
import { send, spokenLock } from "./send.js";
import { localTime } from "./when.js";

const KINDS = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"];
const SLICE_MS = 1000; // what a crash can take at most
const RETRY_MS = 2000;

export const canRecord = Boolean(
  navigator.mediaDevices && window.MediaRecorder && window.indexedDB && navigator.locks && window.crypto?.subtle,
);

// Held for as long as this page records: when the page is gone, the lock is free, and the next page ends the note.
function hold(name) {
  return new Promise((held) => {
    navigator.locks.request(name, () => new Promise((release) => { held(release); }));
  });
}

export class Recording {
  // about: {build, buildName, who, device}, and `at` when it began before now; listeners, each called with the
  // recording: onPiece, onEnd, and onTrouble(recording, error) for what the phone could not store
  static async begin(stream, about, listeners) {
    const recorder = new MediaRecorder(stream, { mimeType: KINDS.find((kind) => MediaRecorder.isTypeSupported(kind)) });
    const begun = { key: crypto.randomUUID(), type: recorder.mimeType, at: localTime(new Date()), seconds: 0 };
    const row = { cancelled: null, ...begun, ...about };
    const early = { began: performance.now(), pieces: [] };
    recorder.ondataavailable = ({ data }) => early.pieces.push(data);
    recorder.start(SLICE_MS); // the first word does not wait for the lock and the disk
    const release = await hold(spokenLock(row.key));
    try {
      await kept.begin(row);
      return new Recording(recorder, row, release, listeners, early);
    } catch (error) {
      if (recorder.state !== "inactive") recorder.stop();
      release();
      throw error;
    }
  }

  constructor(recorder, row, release, listeners, { began, pieces }) {
    Object.assign(this, { recorder, row, release, listeners, began });
    this.unstored = []; // what the phone could not store yet: tried again with every piece
    this.storing = Promise.resolve();
    pieces.forEach((data) => this.take(data));
    recorder.ondataavailable = ({ data }) => this.take(data);
    this.ended = new Promise((resolve) => {
      const end = () => { resolve(this.store().then(() => this.close())); };
      if (recorder.state === "inactive") end(); // the microphone was taken away already
      else recorder.addEventListener("stop", end);
    });
  }

  take(data) {
    if (data.size === 0) return;
    this.unstored.push({ data, seconds: this.seconds });
    this.store();
    this.listeners.onPiece(this);
  }

  get seconds() { return (performance.now() - this.began) / 1000; }
  get listening() { return this.recorder.state === "recording"; }

  // Writes what came in, in its order; a failure leaves it in hand and is told.
  store() {
    this.storing = this.storing.then(async () => {
      while (this.unstored.length > 0) {
        const { data, seconds } = this.unstored[0];
        await kept.add(this.row.key, await data.arrayBuffer(), seconds);
        this.unstored.shift();
      }
      send();
    }).catch((error) => this.listeners.onTrouble(this, error));
    return this.storing;
  }

  async close() {
    while (this.unstored.length > 0) { // nothing is let go that is not stored: room comes when others are sent
      await new Promise((resolve) => { setTimeout(resolve, RETRY_MS); });
      await this.store();
    }
    await kept.end(this.row.key).catch((error) => this.listeners.onTrouble(this, error));
    this.release();
    send({ now: true });
    this.listeners.onEnd(this);
  }

  // All of it as a file, with what the phone could not store.
  async asFile() {
    const { name, type } = await kept.asFile(this.row);
    return new File([await kept.bytesFrom(this.row.key), ...this.unstored.map(({ data }) => data)], name, { type });
  }

  end() {
    if (this.recorder.state !== "inactive") this.recorder.stop();
    return this.ended;
  }
}
