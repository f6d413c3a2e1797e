// Counts the clocks of a build down between two askings. The machine's own time rules, not the phone's.

const ASK_MS = 30000;
let off = 0;

const minutes = (ms) => {
  const left = Math.ceil(Math.abs(ms) / 60000);
  const parts = [[Math.floor(left / 1440), "d"], [Math.floor((left % 1440) / 60), "h"], [left % 60, "min"]];
  return parts.filter(([count]) => count).slice(0, 2).map(([count, unit]) => `${count} ${unit}`).join(" ") || "0 min";
};

const isLarge = Boolean(document.querySelector("[data-large-clocks]")); // the bench: to the second, and with sound
const NEAR_MS = [300_000, 60_000, 0];
const told = new Map(); // the nearest mark that was told, by clock

const toTheSecond = (ms) => {
  const left = Math.ceil(Math.abs(ms) / 1000);
  return left < 3600 ? `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}` : minutes(ms);
};
const shown = isLarge ? toTheSecond : minutes;

// Tells once each that five minutes, one, or none are left; what has passed before the page was open is not told.
function tellNear(clock, left) {
  const name = `${clock.querySelector("h3").textContent} ${clock.dataset.opens}`;
  const mark = NEAR_MS.filter((ms) => left <= ms).pop();
  const before = told.get(name);
  told.set(name, mark);
  if (mark === undefined || mark === before || !told.has(`${name} seen`)) { told.set(`${name} seen`, 0); return; }
  const when = mark === 0 ? "is over" : `ends in ${minutes(left)}`;
  const said = `${clock.querySelector("h3").textContent} of the ${clock.querySelector("p").textContent.split(",")[0]} ${when}.`;
  document.dispatchEvent(new CustomEvent("clock-near", { detail: { left, said } }));
}

function tell(clock, now) {
  const opens = Date.parse(clock.dataset.opens);
  const closes = clock.dataset.closes ? Date.parse(clock.dataset.closes) : null;
  const text = now < opens ? `in ${shown(opens - now)}`
    : closes === null ? "ready"
    : now > closes ? `over for ${shown(now - closes)}`
    : `${shown(closes - now)} left`;
  if (isLarge && closes !== null && now >= opens) tellNear(clock, closes - now);
  const place = clock.querySelector("[data-left]");
  if (place.textContent !== text) place.textContent = text;
}

function count() {
  const now = Date.now() + off;
  for (const clock of document.querySelectorAll("[data-clocks] [data-opens]")) tell(clock, now);
}

function setTime() {
  const section = document.querySelector("[data-clocks]");
  if (section) off = Date.parse(section.dataset.now) - Date.now();
}

export async function refreshClocks() {
  const section = document.querySelector("[data-clocks]");
  if (!section || document.hidden || section.contains(document.activeElement)) return;
  try {
    const answer = await fetch(section.dataset.clocks);
    if (!answer.ok) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector("[data-clocks]");
    section.replaceWith(fresh);
    setTime();
    count();
  } catch {
    // The machine is out of reach: the clocks go on from what is known.
  }
}

setTime();
count();
setInterval(count, 1000);
setInterval(refreshClocks, ASK_MS);
document.addEventListener("visibilitychange", refreshClocks);
