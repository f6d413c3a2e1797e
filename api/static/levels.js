// Tells when somebody speaks by loudness alone, for when the machine is out of reach. The floor of the noise is
// followed: quickly down, slowly up, so that a grinder that goes on becomes the floor. Pure: no clock, no microphone.

const FRAME_S = 0.064;
const BEGIN_DB = 10; // over the floor
const STAY_DB = 6;
const BEGIN_FRAMES = 4; // of the last six
const END_S = 1.5;
const DOWN = 0.2;
const UP_DB = 0.12; // a frame; about 2 dB a second
const QUIETEST_DB = -70;
const LEARNING = 12; // frames that only teach the floor

export class Levels {
  constructor() { this.reset(); }

  reset() {
    this.floor = null;
    this.seen = 0;
    this.recent = [];
    this.speaking = false;
    this.quiet = 0;
  }

  // Begins a note by hand, or goes on with one that the machine no longer hears.
  begin() {
    this.speaking = true;
    this.quiet = 0;
  }

  finish() {
    this.speaking = false;
    this.recent = [];
  }

  // Takes the loudness of the next 64 ms (root mean square, 0 to 1); returns "begin", "end" or null.
  feed(level) {
    const db = Math.max(QUIETEST_DB, 20 * Math.log10(level + 1e-9));
    this.follow(db);
    this.seen += 1;
    if (this.seen <= LEARNING) return null;
    return this.speaking ? this.stay(db) : this.start(db);
  }

  follow(db) {
    if (this.floor === null) this.floor = db;
    else if (db < this.floor) this.floor += DOWN * (db - this.floor);
    else this.floor += Math.min(UP_DB, db - this.floor);
  }

  start(db) {
    this.recent = [...this.recent.slice(-5), db > this.floor + BEGIN_DB];
    if (this.recent.filter(Boolean).length < BEGIN_FRAMES) return null;
    this.begin();
    return "begin";
  }

  stay(db) {
    this.quiet = db > this.floor + STAY_DB ? 0 : this.quiet + FRAME_S;
    if (this.quiet < END_S) return null;
    this.finish();
    return "end";
  }
}
