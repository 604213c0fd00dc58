/** Links as square codes (ISO/IEC 18004) that another phone reads from the screen or from paper. @module */

// @ts-expect-error - esbuild joins it in; it is not installed beside these modules
import { encode } from 'uqr';

/** Rows of dark and light modules, without a light rim. @param {string} text @returns {boolean[][]} */
export const squareCode = (text) => encode(text, { ecc: 'L', border: 0 }).data;
