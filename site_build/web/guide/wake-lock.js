/** Keeps the screen on while somebody makes along, where the platform lets it. @module */

/** @type {any} the lock that is held */
let lock = null;
let wanted = false;

/** @returns {Promise<boolean>} whether the screen will stay on */
export async function stayAwake() {
  wanted = true;
  try {
    lock = await /** @type {any} */ (navigator).wakeLock.request('screen');
  } catch {
    lock = null;
  }
  if (!wanted) letSleep();
  return lock !== null;
}

export function letSleep() {
  wanted = false;
  lock?.release().catch(() => {});
  lock = null;
}

document.addEventListener('visibilitychange', () => {
  if (wanted && document.visibilityState === 'visible') stayAwake();
});
