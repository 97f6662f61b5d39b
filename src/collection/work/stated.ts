/**
 * What a render takes where nothing was measured yet: a linen of 4 megapixels, prepared, painted, checked
 * and written as PNG, on one core of a cloud machine (2.5 GHz).
 */
export const STATED = {
  /** Core time per pixel, ns. */
  nanosecondsOfCore: 230,
  /** Of the file, per pixel. */
  bytes: 2,
} as const;
