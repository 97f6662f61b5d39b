/**
 * 32 well-mixed bits of two whole numbers and a seed. Nearby cells give unrelated bits.
 */
export function hashCell(seed: number, i: number, j: number): number {
  return mixBits(seed ^ Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1)) >>> 0;
}

/** `hashCell` as a number in 0 <= r < 1. */
export function hashUnit(seed: number, i: number, j: number): number {
  return hashCell(seed, i, j) / 4294967296;
}

/**
 * Mixes 32 bits so that each depends on all; signed.
 * The 32-bit finaliser of MurmurHash3 (A. Appleby, public domain).
 */
export function mixBits(bits: number): number {
  let h = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
