/** Depths of pools, as logarithms of their paint, at which water stood long enough to leave a line. */
const SHORES: readonly { readonly depth: number; readonly strength: number }[] = [
  { depth: 0.26, strength: 1 },
  { depth: -0.02, strength: 0.7 },
  { depth: -0.34, strength: 0.85 },
];
/** A sheet as good as level, per mm: its shore is nowhere. */
const LEVEL = 0.008;
/** mm beyond which a shore tells nothing. */
const REACH = 30;

/**
 * What gathered on the shores of pools, as a logarithm of load: a crisp line on the deeper side, a slope inward, and a
 * little less paint just outside. Between soft clouds it is what the eye takes hold of.
 *
 * @param depth Logarithm of the paint; `steep` its slope, per mm.
 * @param stray How far the paper lets the water stray, mm.
 */
export function shoreAt(depth: number, steep: number, stray: number): number {
  let sum = 0;
  for (const { depth: shore, strength } of SHORES) {
    const within = (depth - shore) / Math.max(LEVEL, steep) + stray;
    if (within > -REACH && within < REACH) sum += strength * TABLE[((within + REACH) * PER_MM) | 0];
  }
  return sum;
}

const PER_MM = 64;
const TABLE = Float32Array.from({ length: 2 * REACH * PER_MM + 1 }, (_, k) => across(k / PER_MM - REACH));

function across(within: number): number {
  if (within < 0) return -0.14 * Math.exp(within / 5);
  return 0.42 * Math.exp(-within / 0.7) + 0.24 * Math.exp(-within / 4) - 0.66 * Math.exp(-within / 0.16);
}
