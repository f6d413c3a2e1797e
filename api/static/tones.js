// A sound of its own for each state, so that nobody need look up. Rising: go on; falling: over; low: look here.

// Pairs of hertz and seconds; 0 hertz is a rest.
const TUNES = {
  listening: [[523, 0.09]],
  recording: [[523, 0.07], [784, 0.1]],
  kept: [[392, 0.12], [0, 0.05], [392, 0.12]],
  sent: [[784, 0.07], [523, 0.1]],
  read: [[659, 0.08], [880, 0.14]],
  query: [[440, 0.14], [0, 0.05], [440, 0.14], [330, 0.28]],
  refused: [[220, 0.45]],
  cancelled: [[523, 0.08], [392, 0.08], [294, 0.16]],
  idle: [[392, 0.09], [262, 0.12]],
  near: [[988, 0.12], [0, 0.06], [988, 0.12], [0, 0.06], [988, 0.12]],
};
const LOUD = 0.22;
const EDGE_S = 0.012; // without it each note begins with a click

// Plays the sound of a state; returns its length in seconds.
export function play(context, name) {
  let at = context.currentTime + 0.01;
  const began = at;
  for (const [hertz, seconds] of TUNES[name] ?? []) {
    if (hertz > 0) sound(context, hertz, at, seconds);
    at += seconds;
  }
  return at - began;
}

function sound(context, hertz, at, seconds) {
  const [tone, volume] = [context.createOscillator(), context.createGain()];
  tone.frequency.value = hertz;
  volume.gain.setValueAtTime(0, at);
  volume.gain.linearRampToValueAtTime(LOUD, at + EDGE_S);
  volume.gain.setValueAtTime(LOUD, at + seconds - EDGE_S);
  volume.gain.linearRampToValueAtTime(0, at + seconds);
  tone.connect(volume).connect(context.destination);
  tone.start(at);
  tone.stop(at + seconds);
}
