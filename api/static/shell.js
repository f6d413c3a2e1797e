// On every page: sends what is kept on this phone, says how much that is, makes the page work without the machine,
// and says so when a page is shown as it was last seen.

import * as kept from "./kept.js";
import { canRecord } from "./microphone.js";
import { keepSending } from "./send.js";

function showCount(link) {
  kept.onChange(async () => {
    const rows = await kept.unsent();
    link.hidden = false;
    link.querySelector("[data-count]").textContent = rows.length > 0 ? `\u00a0(${rows.length})` : "";
  });
}

function showAge() {
  const seen = document.documentElement.dataset.seen;
  if (!seen) return;
  const time = document.querySelector("[data-seen-at]");
  time.dateTime = seen;
  time.textContent = `, ${new Date(seen).toLocaleString([], { dateStyle: "medium", timeStyle: "short" })}`;
}

if (canRecord) {
  showCount(document.querySelector("[data-unsent]"));
  keepSending();
}
showAge();
// Browsers have service workers only where the address is trusted: this machine itself, or https.
if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/service-worker.js");
  if (!navigator.serviceWorker.controller) navigator.serviceWorker.ready.then(({ active }) => active.postMessage("keep this page"));
}
