// Times as the wall clock shows them.

// ISO 8601 with the offset of this phone, to the millisecond.
export function localTime(date) {
  const minutes = -date.getTimezoneOffset();
  const two = (number) => String(Math.trunc(Math.abs(number))).padStart(2, "0");
  const wall = new Date(date.getTime() + minutes * 60_000).toISOString().slice(0, -1);
  return `${wall}${minutes < 0 ? "-" : "+"}${two(minutes / 60)}:${two(minutes % 60)}`;
}
