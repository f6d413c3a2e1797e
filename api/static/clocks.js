// Counts the clocks of a build down between two askings. The machine's own time rules, not the phone's.

const ASK_MS = 30000;
let off = 0;

const minutes = (ms) => {
  const left = Math.ceil(Math.abs(ms) / 60000);
  const parts = [[Math.floor(left / 1440), "d"], [Math.floor((left % 1440) / 60), "h"], [left % 60, "min"]];
  return parts.filter(([count]) => count).slice(0, 2).map(([count, unit]) => `${count} ${unit}`).join(" ") || "0 min";
};

function tell(clock, now) {
  const opens = Date.parse(clock.dataset.opens);
  const closes = clock.dataset.closes ? Date.parse(clock.dataset.closes) : null;
  const text = now < opens ? `in ${minutes(opens - now)}`
    : closes === null ? "ready"
    : now > closes ? `over for ${minutes(now - closes)}`
    : `${minutes(closes - now)} left`;
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

async function ask() {
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
setInterval(ask, ASK_MS);
document.addEventListener("visibilitychange", ask);
