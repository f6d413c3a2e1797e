// Runs beside the page's own thread: brings the microphone to 16 kHz and hands it on in pieces of 64 ms, each with
// its loudness. A windowed sinc keeps what lies above 8 kHz from folding back into speech.

const RATE = 16_000;
const PIECE = 1024;
const HALF = 16; // taps on each side of a sample

class Pieces extends AudioWorkletProcessor {
  constructor() {
    super();
    this.step = sampleRate / RATE;
    this.cut = Math.min(1, RATE / sampleRate) * 0.92;
    this.reach = Math.ceil(HALF * Math.max(1, this.step));
    this.sound = new Float32Array(0);
    this.at = this.reach;
    this.piece = new Int16Array(PIECE);
    this.filled = 0;
    this.power = 0;
  }

  tap(distance) {
    const x = Math.PI * distance * this.cut;
    const window = 0.5 + 0.5 * Math.cos((Math.PI * distance) / this.reach);
    return (x === 0 ? 1 : Math.sin(x) / x) * window * this.cut;
  }

  sampleAt(place) {
    const nearest = Math.round(place);
    let sum = 0;
    for (let i = nearest - this.reach + 1; i < nearest + this.reach; i += 1) sum += this.sound[i] * this.tap(place - i);
    return sum;
  }

  put(value) {
    this.power += value * value;
    this.piece[this.filled] = Math.max(-1, Math.min(1, value)) * 32767;
    this.filled += 1;
    if (this.filled < PIECE) return;
    this.port.postMessage({ pcm: this.piece.slice().buffer, level: Math.sqrt(this.power / PIECE) });
    this.filled = 0;
    this.power = 0;
  }

  process([input]) {
    if (!input[0]) return true;
    const joined = new Float32Array(this.sound.length + input[0].length);
    joined.set(this.sound);
    joined.set(input[0], this.sound.length);
    this.sound = joined;
    while (this.at + this.reach + 1 < this.sound.length) {
      this.put(this.step === 1 ? this.sound[Math.round(this.at)] : this.sampleAt(this.at));
      this.at += this.step;
    }
    const gone = Math.floor(this.at) - this.reach - 1;
    if (gone > 0) {
      this.sound = this.sound.slice(gone);
      this.at -= gone;
    }
    return true;
  }
}

registerProcessor("pieces", Pieces);
