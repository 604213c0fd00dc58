/** What making along counts and says: counters, timers, own numbers, the kit list. No page in here. @module */

export const NAMES = 'ABC';
/** One bundle may be so far ahead while it is the other's turn: they are rolled a couple of turns at a time. */
const PAIR = 2;

/**
 * How a count stands: whether the bundles are alike, and how far it is to the turns wanted.
 * @param {number[]} counts one for each bundle, or a single one
 * @param {number} wanted turns, 0 when not known
 * @returns {{state: 'under' | 'uneven' | 'apart' | 'reached' | 'over', words: string}}
 */
export function standing(counts, wanted) {
  const most = Math.max(...counts);
  const least = Math.min(...counts);
  if (most !== least) {
    const ahead = NAMES[counts.indexOf(most)];
    const behind = NAMES[counts.indexOf(least)];
    return { state: most - least > PAIR ? 'apart' : 'uneven', words: `${ahead} is ${halves(most - least)} ahead of ${behind}` };
  }
  const each = counts.length > 1 ? ' each' : '';
  if (!most && !wanted) return { state: 'under', words: 'Tap as you count' };
  const done = `${halves(most)}${each}`;
  if (!wanted) return { state: 'under', words: done };
  if (most < wanted) return { state: 'under', words: `${done}, ${halves(wanted - most)} to go` };
  if (most === wanted) return { state: 'reached', words: `Done: ${done}` };
  return { state: 'over', words: `${done}, ${halves(most - wanted)} too many` };
}

/** A count of turns with its half, if it has one. @param {number} turns */
export function halves(turns) {
  const whole = Math.floor(turns);
  return turns > whole ? `${whole || ''}½` : String(whole);
}

/** Turns in a printed number, to half a turn, 0 when there is none. @param {string} text */
export function turnsIn(text) {
  const found = /\d+(?:[.,]\d+)?/.exec(text);
  return found ? Math.round(2 * Number(found[0].replace(',', '.'))) / 2 : 0;
}

/**
 * A count after one more tap, or one tap back: a whole turn, but the last half where a half turn is wanted.
 * @param {number} count @param {number} more 1 or -1 @param {number} wanted turns, 0 when not known
 */
export function counted(count, more, wanted) {
  if (more > 0) return wanted - count === 0.5 ? wanted : count + 1;
  const half = count > Math.floor(count) && count <= wanted;
  return Math.max(0, count - (half ? 0.5 : 1));
}

/** @param {number} minutes */
function long(minutes) {
  const hours = Math.floor(minutes / 60);
  const rest = Math.round(minutes - 60 * hours);
  return [hours ? `${hours} h` : '', rest || !hours ? `${rest} min` : ''].filter(Boolean).join(' ');
}

/**
 * How a timer stands.
 * @param {number} end when it ends [ms since 1970] @param {number} now @param {number} minutes that it was set to
 * @returns {{done: boolean, words: string}}
 */
export function running(end, now, minutes) {
  const left = Math.ceil((end - now) / 60_000);
  if (left > 0) return { done: false, words: `${long(Math.min(left, minutes))} left of ${long(minutes)}` };
  const since = Math.floor((now - end) / 60_000);
  return { done: true, words: `${long(minutes)} are over${since ? `, since ${long(since)}` : ''}` };
}

/** What a timer is started with. @param {number} minutes @param {string} what */
export const starting = (minutes, what) => `Start ${long(minutes)}: ${what}`;

/**
 * A reader's own number as their units have it.
 * @param {any} own what the bench sheet left @param {string} key @param {string} units inch, metric or empty for both
 */
export function ownText(own, key, units) {
  const found = own?.values?.[key];
  const inch = typeof found === 'string' ? found : found?.in;
  const metric = typeof found === 'string' ? found : found?.mm;
  if (typeof inch !== 'string' || typeof metric !== 'string') return '';
  if (units === 'inch' || inch === metric) return inch;
  return units === 'metric' ? metric : `${inch} (${metric})`;
}

/**
 * How many of a thing to bring to a club afternoon.
 * @param {number} makers @param {{each?: string, per?: string, once?: string}} rule
 */
export function needed(makers, { each = '0', per = '0', once = '0' }) {
  const shared = Number(per) ? Math.ceil(makers / Number(per)) : 0;
  return Math.ceil(makers * Number(each)) + shared + Math.ceil(Number(once));
}

/** How many makers were typed, 0 when that is no number of people. @param {string} text */
export function makersIn(text) {
  const count = Number(text.trim());
  return Number.isInteger(count) && count >= 1 && count <= 200 ? count : 0;
}
