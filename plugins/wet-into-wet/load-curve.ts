const FIRST = -5;
const LAST = 4;
const STEPS = 128;
const TABLE = new Float32Array((LAST - FIRST) * STEPS + 2);
for (let k = 0; k < TABLE.length; k++) TABLE[k] = loadAt(FIRST + k / STEPS);

/** exp(x), bent so that a stain always stays and gathered paint never cakes. */
function loadAt(x: number): number {
  const bent = x > 0 ? 1.15 * (1 - Math.exp(-x / 1.15)) : -1.9 * (1 - Math.exp(x / 1.9));
  return Math.exp(bent);
}

/** The load of a logarithm, between 0.15 and 3.2. */
export function loadOf(x: number): number {
  const at = (x - FIRST) * STEPS;
  if (at <= 0) return TABLE[0];
  if (at >= TABLE.length - 2) return TABLE[TABLE.length - 2];
  const k = at | 0;
  const left = TABLE[k];
  return left + (TABLE[k + 1] - left) * (at - k);
}
