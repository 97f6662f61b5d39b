/**
 * The eight ways a piece may lie: as it is, or its left for its right (1 in the way's bits), its top for its bottom
 * (2), its columns for its rows first (4).
 */

/** Per way, 1 or -1 for a step to the right and a step down. */
export const FLIPS = [0, 1, 2, 3, 4, 5, 6, 7].map(
  (way) => [(way & 1) === 0 ? 1 : -1, (way & 2) === 0 ? 1 : -1] as const,
);

/** Per way, whether columns are taken for rows. */
export const TURNED_ON_ITS_SIDE = [false, false, false, false, true, true, true, true];

/** The ways that are allowed: quarter turns, and turned over. */
export function waysOf(turned: boolean, mirrored: boolean): number[] {
  if (turned) return mirrored ? [0, 1, 2, 3, 4, 5, 6, 7] : [0, 3, 5, 6];
  return mirrored ? [0, 1] : [0];
}
