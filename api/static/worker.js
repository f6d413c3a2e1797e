// Makes the page open without the machine. Served as /service-worker.js with SHELL = {version, files} before it.
//
// Styles and scripts come from the machine while it answers, else from the shell, which was fetched whole under the
// version of its contents. Pages are fetched anew while it answers; else they are shown as they were last seen, and
// marked with the time of that. What /api/ says is never kept: it is fresh or it is not there.

const CACHE = `shell-${SHELL.version}`;
const PAGES = "pages";
const MOST_PAGES = 30;
const PATIENCE_MS = 4000; // on poor wireless: after this what is here is shown, if anything is
const SEEN = "x-last-seen";

let awayUntil = 0; // after a wait in vain the parts of the same page do not wait again

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => event.waitUntil(keep(event.source)));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin || pathname.startsWith("/api/")) return;
  if (request.mode === "navigate") event.respondWith(page(event));
  else if (SHELL.files.includes(pathname)) event.respondWith(part(request, pathname));
});

async function install() {
  const cache = await caches.open(CACHE);
  await cache.addAll(SHELL.files.map((file) => new Request(file, { cache: "reload" })));
  await self.skipWaiting();
}

async function activate() {
  for (const name of await caches.keys()) if (name.startsWith("shell-") && name !== CACHE) await caches.delete(name);
  await self.clients.claim();
}

// A page that was loaded without this worker says so itself (shell.js): one that is just opening cannot be claimed yet.
async function keep({ url }) {
  await self.clients.claim();
  await remember(url, await fetch(url));
}

const inTime = (promise) => Promise.race([
  promise,
  new Promise((_, reject) => { setTimeout(() => reject(new Error("no answer in time")), awayUntil > Date.now() ? 0 : PATIENCE_MS); }),
]).catch((error) => { awayUntil = Date.now() + PATIENCE_MS; throw error; });

async function part(request, pathname) {
  const here = await (await caches.open(CACHE)).match(pathname);
  if (!here) return fetch(request);
  return inTime(fetch(request)).catch(() => here);
}

async function page(event) {
  const { url } = event.request;
  const fresh = fetch(event.request);
  event.waitUntil(fresh.then((answer) => remember(url, answer.clone())).catch(() => {}));
  const here = await lastSeen(url);
  return here ? inTime(fresh).catch(() => here) : fresh.catch(() => away());
}

const nameOf = (url) => { const { pathname, search } = new URL(url); return pathname + search; };

async function remember(url, answer) {
  if (answer.status === 401) await caches.delete(PAGES); // not paired any more: what was seen is no longer its to show
  if (!answer.ok || answer.redirected || SHELL.files.includes(new URL(url).pathname)) return;
  if (!answer.headers.get("content-type")?.startsWith("text/html")) return;
  const headers = { "content-type": "text/html; charset=utf-8", [SEEN]: new Date().toISOString() };
  const policy = answer.headers.get("content-security-policy");
  if (policy) headers["content-security-policy"] = policy;
  const pages = await caches.open(PAGES);
  await pages.delete(nameOf(url)); // the order of the keys is then the order of seeing
  await pages.put(nameOf(url), new Response(await answer.text(), { headers }));
  for (const old of (await pages.keys()).slice(0, -MOST_PAGES)) await pages.delete(old);
}

async function lastSeen(url) {
  const shell = await (await caches.open(CACHE)).match(new URL(url).pathname);
  if (shell) return shell; // holds nothing that could be out of date
  const kept = await (await caches.open(PAGES)).match(nameOf(url));
  if (!kept) return null;
  const text = await kept.text();
  return new Response(text.replace("<html", `<html data-seen="${kept.headers.get(SEEN)}"`), { headers: kept.headers });
}

async function away() {
  return (await (await caches.open(CACHE)).match("/away")) ?? Response.error();
}
