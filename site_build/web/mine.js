/** Whether this reader has been here: anything typed, opened or chosen. `before-theme.js` asks the same. @module */
import { kept } from './storage.js';

export const isMine = () => ['typed', 'opened', 'chosen'].some(kept) || location.hash.startsWith('#v');
