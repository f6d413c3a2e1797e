// A microphone that stays open, and tells when somebody speaks: the machine by its detector over the line (live.js),
// or, out of its reach, this phone by loudness (levels.js).
//
// What is recorded runs a second behind, so that a recording that begins when speech is told has its first word whole.

import { Levels } from "./levels.js";
import { Line } from "./live.js";

export const BEHIND_S = 1;
const AFTER_ALOUD_MS = 250; // the echo of the room

export class OpenMicrophone {
  // listeners: onBegin(by, number), onPause(), onResume(), onEnd(by), onHeard(message), onLine(open), onLevel(level)
  static async open(build, listeners) {
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    const context = new AudioContext();
    await context.audioWorklet.addModule("/static/worklet.js");
    await context.resume();
    return new OpenMicrophone(stream, context, build, listeners);
  }

  constructor(stream, context, build, listeners) {
    Object.assign(this, { stream, context, listeners, levels: new Levels(), deafUntil: 0, deaf: false });
    const source = context.createMediaStreamSource(stream);
    const delay = context.createDelay(BEHIND_S);
    const out = context.createMediaStreamDestination();
    this.pieces = new AudioWorkletNode(context, "pieces", { numberOfOutputs: 0, channelCount: 1, channelCountMode: "explicit" });
    delay.delayTime.value = BEHIND_S;
    source.connect(this.pieces);
    source.connect(delay).connect(out);
    this.behind = out.stream;
    this.pieces.port.onmessage = ({ data }) => this.take(data);
    this.line = new Line(build, {
      onMessage: (message) => this.hear(message),
      onOpen: () => listeners.onLine(true),
      onClosed: () => listeners.onLine(false),
    });
    [this.track] = stream.getAudioTracks();
    this.track.addEventListener("ended", () => listeners.onLost());
  }

  get heardByMachine() { return this.line.open; }

  take({ pcm, level }) {
    this.listeners.onLevel(level);
    if (this.deaf || performance.now() < this.deafUntil) return;
    this.line.sound(pcm);
    const turn = this.levels.feed(level);
    if (turn === "begin" && !this.line.open) this.listeners.onBegin("phone", null);
    if (turn === "end") this.listeners.onEnd("phone");
  }

  hear(message) {
    if (message.kind === "begin") this.listeners.onBegin("machine", message.number);
    else if (message.kind === "end") this.listeners.onEnd("machine");
    else if (message.kind === "heard") this.listeners.onHeard(message);
    else if (message.kind === "trouble") this.listeners.onTrouble(message.why);
  }

  // While the page makes a sound itself it does not listen.
  setDeaf(deaf) {
    if (deaf) this.line.tell("reset");
    else this.deafUntil = performance.now() + AFTER_ALOUD_MS;
    this.deaf = deaf;
    this.levels.finish();
  }

  deafFor(seconds) { this.deafUntil = Math.max(this.deafUntil, performance.now() + 1000 * seconds + AFTER_ALOUD_MS); }

  // By hand.
  begin() { this.line.tell("begin"); this.levels.begin(); }
  finish() { this.line.tell("end"); this.levels.finish(); }

  close() {
    this.line.close();
    this.pieces.port.onmessage = null;
    this.stream.getTracks().forEach((track) => track.stop());
    this.context.close();
  }
}
