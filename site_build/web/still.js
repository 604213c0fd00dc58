/** A page that moves under a press loses the press. @module */

let still = Promise.resolve();
addEventListener('pointerdown', () => {
  still = new Promise((settle) => {
    for (const end of ['pointerup', 'pointercancel']) addEventListener(end, () => setTimeout(settle), { once: true });
  });
}, true);

/** Settles while no finger or button is down. */
export const whenStill = () => still;
