import { type Box, type FractalNoise, fractalAt, fractalNoise, type RandomStream } from 'tenter';
import type { Drop } from './drop.ts';
import { pressTogether } from './press.ts';
import { ANGLES, directionOf, type Outlines } from './turn.ts';
import { clamp } from './wetness.ts';

/** Sizes of the paper's unevenness, mm. */
const SIZES = [17, 7, 2.8, 1.1];
/** The share of its radius that unevenness as wide as a drop moves its outline. */
const LOBING = 0.09;

/**
 * Lets the paper shape the drops: along each direction the opening reached further where the wash was
 * wetter. The same unevenness under all of them, so that neighbours bend together.
 */
export function shapeOutlines(
  box: Box,
  drops: readonly Drop[],
  tooth: number,
  random: RandomStream,
): Outlines {
  const noise = (size: number, octaves: number) =>
    fractalNoise(box.lattice, { along: size, across: size }, { octaves, gain: 0.5 }, random);
  const fields = SIZES.map((size) => noise(size, 1));
  const breaks = noise(6, 2);
  const combs = COMBS.map((size) => noise(size, 1));
  const bunches = noise(9, 2);
  const count = drops.length;
  const outlines = {
    radius: new Float32Array(count * ANGLES),
    rim: new Float32Array(count * ANGLES),
    finger: new Float32Array(count * ANGLES),
    widest: new Float64Array(count),
  };
  for (let k = 0; k < count; k++) shapeOne(drops[k], k, { fields, breaks, combs, bunches }, tooth, outlines);
  pressTogether(box, drops, outlines, breaks);
  return outlines;
}

interface Unevenness {
  readonly fields: readonly FractalNoise[];
  readonly breaks: FractalNoise;
  readonly combs: readonly FractalNoise[];
  readonly bunches: FractalNoise;
}

/** Widths of fingers, mm; a drop has those that are about as wide as its radius and a fifth of that. */
const COMBS = [0.35, 0.8, 1.8, 4, 9];

function combFor(width: number): number {
  let comb = 0;
  while (comb + 1 < COMBS.length && width > Math.sqrt(COMBS[comb] * COMBS[comb + 1])) comb++;
  return comb;
}

function shapeOne(
  drop: Drop,
  index: number,
  { fields, breaks, combs, bunches }: Unevenness,
  tooth: number,
  { radius: radii, rim, finger, widest }: Outlines,
): void {
  const { x, y, radius, lobes, stretch, heading, softness } = drop;
  const rough = LOBING * lobes * (0.75 + 0.5 * tooth) * (1 - 0.3 * softness);
  // Surface tension rounds off what is small beside the drop; what is far larger moves it as a whole.
  const reach = SIZES.map((size) =>
    size > 14 * radius
      ? 0
      : rough * radius * Math.min(1, size / (2.4 * radius)) ** 1.25 * Math.min(1, 0.45 + 0.2 * radius),
  );
  const broad = combs[combFor(radius / 1.2)];
  const fine = combs[combFor(radius / 9)];
  const every = radius < SMALL ? 4 : 1;
  for (let angle = 0; angle < ANGLES; angle += every) {
    const turn = (4 * angle) / ANGLES;
    const [dx, dy] = directionOf(turn);
    const px = x + radius * dx;
    const py = y + radius * dy;
    const along = dx * Math.cos(heading) + dy * Math.sin(heading);
    let push = stretch * radius * (2 * along * along - 1);
    for (let k = 0; k < fields.length; k++) if (reach[k] > 0) push += reach[k] * fractalAt(fields[k], px, py);
    const wide = radius * clamp(1 + push / radius, 0.5, 1.55);
    radii[index * ANGLES + angle] = wide;
    // Fingers come in bunches, where the paper let them; elsewhere the edge is smooth.
    const bunch = clamp(0.45 + 0.8 * fractalAt(bunches, px, py), 0, 1.6);
    finger[index * ANGLES + angle] =
      0.6 * fractalAt(broad, px, py) + 1.1 * bunch * fractalAt(fine, px + 17, py + 31);
    const side = dx * Math.cos(2.3 * heading + 1) + dy * Math.sin(2.3 * heading + 1);
    rim[index * ANGLES + angle] = clamp(
      // Paint hangs at the lower side, and is lost elsewhere: no two rims are even.
      (0.16 + 0.45 * side + 0.14 * dy + 0.55 * fractalAt(breaks, px, py)) * clamp((radius - 0.3) / 2),
    );
  }
  if (every > 1) for (const values of [radii, rim, finger]) fillBetween(values, index * ANGLES, every);
  let square = 0;
  for (let at = index * ANGLES; at < (index + 1) * ANGLES; at++) square += radii[at] ** 2;
  const scale = radius / Math.sqrt(square / ANGLES);
  for (let angle = 0; angle < ANGLES; angle++) {
    const at = index * ANGLES + angle;
    radii[at] = Math.min(1.6 * radius, radii[at] * scale);
    widest[index] = Math.max(widest[index], radii[at]);
  }
}

/** Radius, mm, below which a fourth of the angles shows all that there is to see. */
const SMALL = 0.8;

/** Fills in the angles between those that were worked out. */
function fillBetween(values: Float32Array, first: number, every: number): void {
  for (let angle = 0; angle < ANGLES; angle += every) {
    const here = values[first + angle];
    const rise = (values[first + ((angle + every) % ANGLES)] - here) / every;
    for (let k = 1; k < every; k++) values[first + angle + k] = here + k * rise;
  }
}
