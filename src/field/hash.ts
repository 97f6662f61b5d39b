/**
 * 32 well-mixed bits of two whole numbers and a seed. Nearby cells give unrelated bits.
 * The finaliser is the 32-bit one of MurmurHash3 (A. Appleby, public domain; constants from memory).
 */
export function hashCell(seed: number, i: number, j: number): number {
  let h = seed ^ Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** `hashCell` as a number in 0 <= r < 1. */
export function hashUnit(seed: number, i: number, j: number): number {
  return hashCell(seed, i, j) / 4294967296;
}
