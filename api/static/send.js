// Sends what is kept on this phone, the oldest first, in pieces: asks the machine how far it got, goes on from
// there, and finishes with the length and the sum. Every request may be sent again, so whatever breaks is simply
// done once more: a dead connection, a reload, a closed browser, a machine that restarts. A recording that is still
// being spoken is sent as far as it goes.

import * as kept from "./kept.js";

const PIECE_BYTES = 128 * 1024;
const PATIENCE_MS = 20_000;
const SOON_MS = 1000;
const LATEST_MS = 8000;
const TRY_LATER = new Set([401, 403, 408, 412, 425, 429]); // not the recording's fault: 412 is asked how far it got

class Refused extends Error {} // the machine will never take it
class OutOfReach extends Error {}

let pause = SOON_MS;
let timer = 0;
let running = false;
let again = false;
const reached = new Map(); // how far each got, as long as nothing went wrong

export const spokenLock = (key) => `speaking ${key}`;

async function request(url, options = {}) {
  let answer;
  try {
    answer = await fetch(url, { ...options, cache: "no-store", signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    throw new OutOfReach("The machine is out of reach.");
  }
  if (answer.ok) return answer.json();
  const said = (await answer.json().catch(() => ({}))).detail ?? `The machine answered ${answer.status}.`;
  throw answer.status >= 500 || TRY_LATER.has(answer.status) ? new Error(said) : new Refused(said);
}

async function sumOf(blob) {
  const sum = await crypto.subtle.digest("SHA-256", await blob.arrayBuffer());
  return [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function sendPieces(row, url) {
  let far = reached.get(row.key) ?? await request(url);
  if (row.reason) await kept.keptBecause(row.key, "");
  while (far.sha256 === null && far.received < row.size) {
    const body = await kept.bytesFrom(row.key, far.received, PIECE_BYTES);
    far = await request(`${url}/${far.received}`, { method: "PUT", body });
  }
  reached.set(row.key, far);
}

async function finish(row, url) {
  const sha256 = await sumOf(await kept.bytesFrom(row.key));
  const { key, size, at, who, device, place = null, guessed = false, cancelled = null } = row;
  const said = { size_bytes: size, sha256, recorded_at: at, who: who || null, device, place, guessed, cancelled };
  const body = JSON.stringify(said);
  const headers = { "content-type": "application/json" };
  const done = await request(url, { method: "POST", body, headers });
  if (done.sha256 !== sha256) throw new Refused("The machine keeps other bytes than this phone.");
  await kept.confirmed(key, { note: done.note_id, photo: done.photo_id }, sha256);
}

async function sendOne(row) {
  const url = `/api/builds/${encodeURIComponent(row.build)}/uploads/${row.key}`;
  try {
    await sendPieces(row, url);
    if (row.state === "kept") await finish(row, url);
  } catch (error) {
    reached.delete(row.key);
    if (!(error instanceof Refused)) {
      await kept.keptBecause(row.key, error.message);
      throw error;
    }
    if (row.state === "kept") await kept.refuse(row.key, error.message);
  }
}

// A recording whose page is gone (reload, crash, closed browser) ends where it was cut: its page held a lock.
async function endOrphans() {
  for (const row of (await kept.unsent()).filter(({ state }) => state === "speaking")) {
    await navigator.locks.request(spokenLock(row.key), { ifAvailable: true }, (lock) => lock && kept.end(row.key));
  }
}

const canGo = (row) => row?.state === "kept" || (row?.state === "speaking" && row.size > 0);

// One that fails does not hold up the rest, unless the machine is out of reach of all.
async function sendAll() {
  await endOrphans();
  let failure = null;
  for (const { key } of await kept.unsent()) {
    const row = await kept.get(key); // it may have grown, or gone, meanwhile
    try {
      if (canGo(row)) await sendOne(row);
    } catch (error) {
      if (error instanceof OutOfReach) throw error;
      failure = error;
    }
  }
  if (failure) throw failure;
}

async function pass() {
  running = true;
  clearTimeout(timer);
  timer = 0;
  try {
    do {
      again = false;
      await navigator.locks.request("sending", sendAll); // one page of this browser at a time
    } while (again);
    pause = SOON_MS;
  } catch {
    timer = setTimeout(pass, pause);
    pause = Math.min(2 * pause, LATEST_MS);
  } finally {
    running = false;
  }
}

// Sends soon. While the machine is out of reach only `now` shortens the wait.
export function send({ now = false } = {}) {
  if (running) again = true;
  else if (now || timer === 0) pass();
}

export async function sendAgain(key) {
  await kept.tryAgain(key);
  send({ now: true });
}

export function keepSending() {
  addEventListener("online", () => send({ now: true }));
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send({ now: true }); });
  send();
}
