// The recordings and photos on this phone: each is written here while it is spoken, or taken, and goes only when the
// machine has confirmed the sum of what it keeps. One row each, and its bytes in pieces, each under its own offset.
//
// A row: {key, build, buildName, who, device, type, at, seconds, size, state, reason, note, sha256}; a photo's has as
// well {place, guessed, photo}: guessed when the time is the file's, which what stands in it goes before
//   state: speaking  its sound is still coming in
//          kept      whole, or as far as it was spoken; not with the machine yet
//          refused   the machine will not take it, for the reason given
//          sent      confirmed; only this row is left, as a receipt
//   cancelled: the words or the key that took it back, else null
//   reason: why the last sending failed; at: start, ISO 8601 with its offset; seconds: length so far

const RECORDINGS = "recordings";
const PIECES = "pieces";
const BOTH = [RECORDINGS, PIECES];
const MOST_RECEIPTS = 20;

const news = new BroadcastChannel("recordings");
const listeners = new Set();
let opening = null;

const result = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("mouldbook", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(RECORDINGS, { keyPath: "key" });
      request.result.createObjectStore(PIECES, { keyPath: ["key", "from"] });
    };
    request.onerror = () => { opening = null; reject(request.error); };
    request.onsuccess = () => {
      request.result.onclose = () => { opening = null; };
      request.result.onversionchange = () => { request.result.close(); opening = null; };
      resolve(request.result);
    };
  });
  return opening;
}

// Runs work(transaction) and returns what it resolves to once everything is on the disk ("strict": a battery that
// dies right afterwards takes nothing with it).
async function changing(work) {
  const transaction = (await open()).transaction(BOTH, "readwrite", { durability: "strict" });
  const written = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new Error("the phone did not keep it"));
  });
  const [value] = await Promise.all([work(transaction), written]);
  announce();
  return value;
}

async function reading(name) {
  return (await open()).transaction(name, "readonly").objectStore(name);
}

function announce() {
  news.postMessage("changed");
  listeners.forEach((listener) => listener());
}

news.addEventListener("message", () => listeners.forEach((listener) => listener()));

export function onChange(listener) {
  listeners.add(listener);
  listener();
}

const piecesOf = (key, from = 0) => IDBKeyRange.bound([key, from], [key, Infinity]);

export function begin(recording) {
  return changing((transaction) => result(transaction.objectStore(RECORDINGS).add({
    ...recording, seconds: 0, size: 0, state: "speaking", reason: "", note: null, sha256: null,
  })));
}

// Keeps a photo, whole at once.
export function keepWhole(photo, bytes) {
  return changing(async (transaction) => {
    await result(transaction.objectStore(RECORDINGS).add({
      ...photo, seconds: 0, size: bytes.byteLength, state: "kept", reason: "", note: null, photo: null, sha256: null,
    }));
    await result(transaction.objectStore(PIECES).add({ key: photo.key, from: 0, bytes }));
  });
}

async function changeRow(transaction, key, change) {
  const rows = transaction.objectStore(RECORDINGS);
  const row = await result(rows.get(key));
  if (!row) throw new Error("this phone keeps no such recording");
  await result(rows.put({ ...row, ...change(row) }));
}

export function add(key, bytes, seconds) {
  return changing((transaction) => changeRow(transaction, key, (row) => {
    transaction.objectStore(PIECES).add({ key, from: row.size, bytes });
    return { size: row.size + bytes.byteLength, seconds };
  }));
}

// Ends a recording as far as it was spoken; one of which nothing was heard yet leaves nothing.
export function end(key) {
  return changing(async (transaction) => {
    const rows = transaction.objectStore(RECORDINGS);
    const row = await result(rows.get(key));
    if (row?.state !== "speaking") return;
    await result(row.size === 0 ? rows.delete(key) : rows.put({ ...row, state: "kept" }));
  });
}

// The speaker takes it back: it is kept and sent like any other, and the machine withdraws what it reads in it.
export const cancel = (key, words) => changing((t) => changeRow(t, key, () => ({ cancelled: words })));
export const keptBecause = (key, reason) => changing((t) => changeRow(t, key, () => ({ reason })));
export const refuse = (key, reason) => changing((t) => changeRow(t, key, () => ({ state: "refused", reason })));
export const tryAgain = (key) => changing((t) => changeRow(t, key, ({ state }) => (
  state === "refused" ? { state: "kept", reason: "" } : { reason: "" }
)));

function refusedOnly(row) {
  if (row?.state !== "refused") throw new Error("only what the machine refused can be moved or deleted");
  return row;
}

// Makes a refused one of another build, under a new key: the machine may know the old one.
export function move(key, build, buildName) {
  return changing(async (transaction) => {
    const [rows, pieces] = BOTH.map((name) => transaction.objectStore(name));
    const row = refusedOnly(await result(rows.get(key)));
    const moved = { ...row, key: crypto.randomUUID(), build, buildName, state: "kept", reason: "" };
    for (const piece of await result(pieces.getAll(piecesOf(key)))) pieces.put({ ...piece, key: moved.key });
    pieces.delete(piecesOf(key));
    rows.delete(key);
    await result(rows.add(moved));
  });
}

// Deletes a refused one for ever: whoever calls this has asked the person.
export function discard(key) {
  return changing(async (transaction) => {
    refusedOnly(await result(transaction.objectStore(RECORDINGS).get(key)));
    transaction.objectStore(PIECES).delete(piecesOf(key));
    await result(transaction.objectStore(RECORDINGS).delete(key));
  });
}

// But for those, the only way that a recording leaves the phone: the machine named the sum of what it keeps.
export function confirmed(key, { note = null, photo = null }, sha256) {
  return changing(async (transaction) => {
    await result(transaction.objectStore(PIECES).delete(piecesOf(key)));
    await changeRow(transaction, key, () => ({ state: "sent", reason: "", note, photo, sha256 }));
    const rows = transaction.objectStore(RECORDINGS);
    const receipts = (await result(rows.getAll())).filter(isSent).sort(byTime);
    for (const old of receipts.slice(0, -MOST_RECEIPTS)) rows.delete(old.key);
  });
}

export const isSent = (row) => row.state === "sent";
export const isPhoto = (row) => row.type.startsWith("image/");
const byTime = (a, b) => Date.parse(a.at) - Date.parse(b.at);

export async function all() {
  return (await result((await reading(RECORDINGS)).getAll())).sort(byTime);
}

export async function unsent() {
  return (await all()).filter((row) => !isSent(row));
}

export async function get(key) {
  return result((await reading(RECORDINGS)).get(key));
}

// The bytes from an offset on, as a Blob of at most `most` bytes.
export async function bytesFrom(key, offset = 0, most = Infinity) {
  const pieces = await reading(PIECES);
  const before = await result(pieces.openKeyCursor(IDBKeyRange.bound([key, 0], [key, offset]), "prev"));
  const first = before ? before.key[1] : 0;
  const found = await result(pieces.getAll(piecesOf(key, first)));
  const begins = offset - first;
  return new Blob(found.map(({ bytes }) => bytes)).slice(begins, begins + most);
}

const ENDINGS = { "audio/webm": "webm", "audio/ogg": "ogg", "audio/mp4": "m4a", "image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/heic": "heic" };

export async function asFile(row) {
  const type = row.type.split(";")[0];
  const name = `${row.build}-${row.at.slice(0, 19).replaceAll(":", "-")}.${ENDINGS[type] ?? "bin"}`;
  return new File([await bytesFrom(row.key)], name, { type });
}
