// Sets a pin on the reference photo: by a tap, or with the arrow keys and Enter. The form holds the numbers, so that
// it works without this as well.

const photo = document.querySelector("[data-set]");
const form = document.querySelector("[data-pin]");

const STEP = 1; // per cent
const FAR = 5;
const MOVES = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

const inside = (value) => Math.min(100, Math.max(0, Math.round(10 * value) / 10));
const at = () => [form.elements.x, form.elements.y].map(({ value }) => (value === "" ? null : Number(value)));

function show(told = "") {
  const [x, y] = at();
  const mark = photo.querySelector("[data-mark]");
  const known = Number.isFinite(x) && Number.isFinite(y) && x !== null && y !== null;
  mark.toggleAttribute("hidden", !known);
  if (known) mark.setAttribute("transform", `translate(${10 * x} ${(Number(photo.dataset.high) * y) / 100})`);
  const where = known ? `${Math.round(x)} % from the left, ${Math.round(y)} % from the top.` : "";
  document.querySelector("[data-where]").textContent = `${where} ${told}`.trim();
}

function put(x, y) {
  form.elements.x.value = String(inside(x));
  form.elements.y.value = String(inside(y));
  show();
}

function set() {
  const { place, step_id: fault, x, y } = form.elements;
  if (x.value === "" || y.value === "") put(50, 50);
  else if (place.value.trim() === "" && !fault?.value) {
    show("What is there? Name the place, or choose the fault.");
    place.focus();
  } else form.requestSubmit();
}

function tapped(event) {
  if (event.target.closest("a")) return;
  const box = photo.getBoundingClientRect();
  put((100 * (event.clientX - box.left)) / box.width, (100 * (event.clientY - box.top)) / box.height);
  form.elements.place.focus({ preventScroll: true });
}

function pressed(event) {
  if (event.target !== photo || event.altKey || event.ctrlKey || event.metaKey) return;
  const move = MOVES[event.key];
  if (event.key === "Enter") set();
  else if (move) {
    const [x, y] = at();
    const far = event.shiftKey ? FAR : STEP;
    put((x ?? 50) + far * move[0], (y ?? 50) + far * move[1]);
  } else return;
  event.preventDefault();
}

if (photo && form) {
  document.querySelector("[data-how]").hidden = false;
  photo.addEventListener("click", tapped);
  photo.addEventListener("keydown", pressed);
  form.addEventListener("input", () => show());
  show();
}
