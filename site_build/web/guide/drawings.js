/**
 * The drawings that a guide's page does not carry: those for an S string, and those that move. They come when a reader
 * asks for them, as scripts, since a page opened from a folder may fetch nothing.
 * @module
 */

const PLACE = new URL('../drawings/', import.meta.url);
const ABSENT = 'The drawing for an S string is not on this device yet. It comes with the signal.';

/** Scripts asked for, by name. @type {Map<string, Promise<Record<string, string>>>} */
const asked = new Map();
/**
 * Places for S drawings that are still empty, by figure: making along and own numbers take them out of the page.
 * @type {Map<HTMLElement, HTMLElement>}
 */
const empty = new Map();

/** Bring a script's drawings, by the prefixes of their ids. @param {string} name @returns {Promise<Record<string, string>>} */
function brought(name) {
  const found = asked.get(name);
  if (found) return found;
  const promise = new Promise((settle, fail) => {
    const script = Object.assign(document.createElement('script'), { src: new URL(`${name}.js`, PLACE).href });
    script.onload = () => settle(/** @type {any} */ (window).pliedTrueDrawings?.[name] ?? {});
    script.onerror = () => {
      asked.delete(name);
      script.remove();
      fail(new Error(`${name} did not come`));
    };
    document.head.append(script);
  });
  asked.set(name, promise);
  return promise;
}

/** The page and the prefix under which a figure's other drawings are filed. @param {HTMLElement} figure */
function filed(figure) {
  const [page = '', prefix = ''] = (figure.dataset.drawing ?? '').split(' ');
  return { page, prefix };
}

/** Note where an S drawing belongs. @param {HTMLElement} figure */
export function bindDrawings(figure) {
  for (const gone of empty.keys()) if (!gone.isConnected) empty.delete(gone);
  const room = /** @type {HTMLElement | null} */ (figure.querySelector('[data-hand="S"]:has(> svg:empty)'));
  if (room) empty.set(figure, room);
}

/**
 * Put the S drawings into the page; the place of one that cannot come says so.
 * @param {(figure: HTMLElement) => void} arrived
 */
export function bringOtherHand(arrived) {
  for (const [figure, room] of [...empty]) {
    const { page, prefix } = filed(figure);
    brought(`${page}-S`).then(
      (drawings) => {
        if (!empty.delete(figure)) return;
        room.innerHTML = drawings[prefix] ?? '';
        arrived(figure);
      },
      () => {
        if (empty.has(figure)) room.textContent = ABSENT;
      },
    );
  }
}

/** Give a still drawing the frames of its motion. @param {HTMLElement} figure @param {SVGElement} drawing */
export async function bringMotion(figure, drawing) {
  const { page, prefix } = filed(figure);
  const hand = drawing.closest('[data-hand="S"]') ? 'S' : 'Z';
  const whole = document.createElement('template');
  whole.innerHTML = (await brought(`${page}-${hand}-moving`))[prefix] ?? '';
  const moving = whole.content.firstElementChild;
  if (moving && !drawing.querySelector('.d-f0')) drawing.replaceChildren(...moving.childNodes);
}
