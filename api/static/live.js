// The line to the machine that the open microphone is heard over. Nothing depends on it: what is spoken is kept on
// this phone, and goes to the machine by its own way. Without the line the phone listens by itself (levels.js).

const FIRST_PAUSE_MS = 500;
const LATEST_PAUSE_MS = 8000;
const MOST_WAITING_BYTES = 128_000; // four seconds: a line that lags more than this is no use
const PATIENCE_MS = 5000;

export class Line {
  // listeners: onMessage(message), onOpen(), onClosed()
  constructor(build, listeners) {
    Object.assign(this, { listeners, pause: FIRST_PAUSE_MS, socket: null, open: false, wanted: true });
    this.address = new URL(`/api/builds/${encodeURIComponent(build)}/live`, location.href);
    this.address.protocol = location.protocol === "https:" ? "wss:" : "ws:";
    addEventListener("online", () => this.connect());
    this.connect();
  }

  connect() {
    if (!this.wanted || this.socket) return;
    const socket = new WebSocket(this.address);
    this.socket = socket;
    const slow = setTimeout(() => this.lost(socket), PATIENCE_MS);
    socket.binaryType = "arraybuffer";
    socket.onmessage = ({ data }) => {
      if (this.socket !== socket) return;
      const message = JSON.parse(data);
      if (message.kind === "ready") {
        clearTimeout(slow);
        this.open = true;
        this.pause = FIRST_PAUSE_MS;
        this.listeners.onOpen();
      } else this.listeners.onMessage(message);
    };
    socket.onclose = () => { clearTimeout(slow); this.lost(socket); };
  }

  lost(socket) {
    if (this.socket !== socket) return;
    this.socket = null;
    const was = this.open;
    this.open = false;
    socket.close();
    if (was) this.listeners.onClosed();
    if (!this.wanted) return;
    setTimeout(() => this.connect(), this.pause);
    this.pause = Math.min(2 * this.pause, LATEST_PAUSE_MS);
  }

  sound(pcm) {
    if (!this.open) return;
    if (this.socket.bufferedAmount > MOST_WAITING_BYTES) this.lost(this.socket);
    else this.socket.send(pcm);
  }

  tell(what) { if (this.open) this.socket.send(JSON.stringify({ do: what })); }

  close() {
    this.wanted = false;
    if (this.socket) this.lost(this.socket);
  }
}
