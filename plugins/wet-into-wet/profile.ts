/**
 * What a front leaves, as a logarithm of load, by the distance from its outline in widths: a pale basin
 * inside, darkest gathered paint just inside the outline, falling off steeply outward. Tables, for a pixel
 * looks it up three times.
 */
const FIRST = -24;
const LAST = 8;
const PER_WIDTH = 32;

export const EDGE_TABLE = new Float32Array((LAST - FIRST) * PER_WIDTH + 2);
for (let k = 0; k < EDGE_TABLE.length; k++) EDGE_TABLE[k] = edgeAt(FIRST + k / PER_WIDTH);

function edgeAt(t: number): number {
  const inside = 1 / (1 + Math.exp(14 * (t + 0.06)));
  const depth = Math.max(0, -t);
  const basin = -0.85 * (1 - Math.exp(-depth / 1.6)) * (0.72 + 0.28 * Math.exp(-depth / 14));
  const line = 0.62 * Math.exp(-depth / 0.5) + 0.2 * Math.exp(-depth / 0.16);
  // A stand of the front a little earlier: a fainter line within.
  const earlier = 0.16 * Math.exp(-(((t + 5.2) / 0.7) ** 2));
  const shoved = 0.12 * Math.exp(-Math.max(0, t) / 2.2);
  return inside * (basin + line + earlier) + (1 - inside) * shoved;
}

/** The table read at `t` widths, straight between its entries. */
export function edgeLoad(t: number): number {
  const at = (t - FIRST) * PER_WIDTH;
  if (at <= 0) return EDGE_TABLE[0];
  if (at >= EDGE_TABLE.length - 2) return 0;
  const k = at | 0;
  const left = EDGE_TABLE[k];
  return left + (EDGE_TABLE[k + 1] - left) * (at - k);
}

const LOAD_FIRST = -4;
const LOAD_LAST = 3;
const LOAD_STEPS = 128;
const LOAD_TABLE = new Float32Array((LOAD_LAST - LOAD_FIRST) * LOAD_STEPS + 2);
for (let k = 0; k < LOAD_TABLE.length; k++) LOAD_TABLE[k] = loadAt(LOAD_FIRST + k / LOAD_STEPS);

/** exp(x), bent so that a stain always stays and gathered paint never cakes. */
function loadAt(x: number): number {
  const bent = x > 0 ? 0.95 * (1 - Math.exp(-x / 0.95)) : -1.5 * (1 - Math.exp(x / 1.5));
  return Math.exp(bent);
}

/** The load of a logarithm, between 0.22 and 2.6. */
export function loadOf(x: number): number {
  const at = (x - LOAD_FIRST) * LOAD_STEPS;
  if (at <= 0) return LOAD_TABLE[0];
  if (at >= LOAD_TABLE.length - 2) return LOAD_TABLE[LOAD_TABLE.length - 2];
  const k = at | 0;
  const left = LOAD_TABLE[k];
  return left + (LOAD_TABLE[k + 1] - left) * (at - k);
}
