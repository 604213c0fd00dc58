/** The lowest note in a piece of sound, by how well it lies on itself a period later. Pure: no browser is asked. @module */

const RATE = 12000; // samples a second are plenty: notes end at 600 Hz
const LOWEST = 20;
const HIGHEST = 620;
const QUIET = 0.0005;
const CLEAR = 0.85;
const NEARLY = 0.92; // of the best likeness: the first period that comes so near is the note, not two or three of it

/** A sample; none beyond the ends. @param {ArrayLike<number>} sound @param {number} at */
const sample = (sound, at) => sound[at] ?? 0;

/** Fewer samples, each the mean of some, around nought. @param {ArrayLike<number>} sound @param {number} by */
function thinned(sound, by) {
  const kept = new Float64Array(Math.floor(sound.length / by));
  let whole = 0;
  for (let at = 0; at < kept.length; at += 1) {
    let sum = 0;
    for (let k = 0; k < by; k += 1) sum += sample(sound, at * by + k);
    kept[at] = sum / by;
    whole += sum / by;
  }
  return kept.map((each) => each - whole / kept.length);
}

/** How alike a sound is to itself so much later, from −1 to 1. @param {Float64Array} sound @param {number} later */
function likeness(sound, later) {
  let both = 0;
  let power = 0;
  for (let at = 0; at + later < sound.length; at += 1) {
    const one = sample(sound, at);
    const two = sample(sound, at + later);
    both += one * two;
    power += one * one + two * two;
  }
  return power ? (2 * both) / power : 0;
}

/** Where a sound is most like itself, between samples, near a place. @param {Float64Array} sound @param {number} near */
function top(sound, near) {
  const before = likeness(sound, near - 1);
  const here = likeness(sound, near);
  const after = likeness(sound, near + 1);
  const off = (before - after) / (2 * (before - 2 * here + after));
  return near + (Math.abs(off) <= 1 ? off : 0);
}

/**
 * The note in Hz; nothing where it is quiet, or no one note.
 * @param {ArrayLike<number>} sound at least a tenth of a second @param {number} rate samples a second
 * @returns {number | undefined}
 */
export function pitch(sound, rate) {
  const by = Math.max(1, Math.round(rate / RATE));
  const kept = thinned(sound, by);
  const loud = Math.sqrt(kept.reduce((sum, each) => sum + each * each, 0) / kept.length);
  if (!(loud > QUIET)) return undefined;
  const most = Math.min(Math.ceil(rate / by / LOWEST), Math.floor(kept.length / 2));
  const alike = Array.from({ length: most + 2 }, (_, later) => likeness(kept, later));
  const least = Math.max(alike.findIndex((each) => each < 0), Math.floor(rate / by / HIGHEST));
  if (least < 1) return undefined;
  const peaks = [];
  for (let at = least; at <= most; at += 1) {
    const here = sample(alike, at);
    if (here > 0 && here >= sample(alike, at - 1) && here > sample(alike, at + 1)) peaks.push(at);
  }
  const best = Math.max(...peaks.map((at) => sample(alike, at)));
  if (!(best > CLEAR)) return undefined;
  let period = top(kept, peaks.find((each) => sample(alike, each) >= NEARLY * best) ?? 0);
  for (let times = 2; times * period < kept.length / 2; times *= 2) period = top(kept, Math.round(times * period)) / times;
  return rate / by / period;
}

/** The middle of readings that agree to one in fifty; nothing where they do not. @param {number[]} notes */
export function agreed(notes) {
  const sorted = [...notes].sort((one, two) => one - two);
  const [least = 0] = sorted;
  const middle = sorted[Math.floor(sorted.length / 2)];
  return sorted.length > 2 && sample(sorted, sorted.length - 1) < 1.02 * least ? middle : undefined;
}
