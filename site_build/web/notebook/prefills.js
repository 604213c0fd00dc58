/**
 * The bow, the cord and the maker that the sheets are opened for, and what the notebook tells each sheet of them. Kept as
 * text beside what is carried from sheet to sheet, so that a sheet has it before Python is there.
 * @module
 */
import { kept } from '../storage.js';

/** @typedef {'bow' | 'cord' | 'hand'} Kind */
/** @typedef {{id: string, name: string}} Choice */
/** Of a string also its id and the day it was made. @typedef {{text: string, from: string, string?: string, on?: string}} Told */
/** @typedef {{bow?: Choice, cord?: Choice, hand?: Choice, sheets?: Record<string, Record<string, Told>>}} Chosen */

/** @returns {Chosen} */
export function chosen() {
  const found = kept('chosen');
  return found && typeof found === 'object' ? found : {};
}

/** What the notebook tells a sheet. @param {string} sheet */
export const toldTo = (sheet) => chosen().sheets?.[sheet] ?? {};
