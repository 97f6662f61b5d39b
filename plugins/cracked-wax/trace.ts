import { type Box, type FractalNoise, fractalAt, fractalNoise, type RandomStream } from 'tenter';
import type { Crack } from './grow.ts';
import type { WaxValues } from './parameters.ts';

/** A crack with what seeped through it at each vertex. */
export interface Trace {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Half the width, mm. */
  readonly halves: Float64Array;
  /** How much dye, 0..1. */
  readonly inks: Float64Array;
}

/** Width and dye of cracks of each rank beside those of main cracks. */
const RANKS = [
  { width: 1, ink: 1 },
  { width: 0.72, ink: 0.9 },
  { width: 0.54, ink: 0.8 },
  { width: 0.44, ink: 0.72 },
  { width: 0.38, ink: 0.62 },
] as const;
/** Free ends taper over this many mm; cracks gape over the other where they meet. */
const TAPER = 3.5;
const MOUTH = 1.6;
const POINT = 0.9;

/** Gives every crack its width and dye, and the small jags of brittle wax. */
export function traceCracks(
  box: Box,
  cracks: readonly Crack[],
  values: WaxValues,
  random: RandomStream,
): Trace[] {
  const shape = { along: 4.5, across: 4.5 };
  const jags = [0, 1].map(() =>
    fractalNoise(box.lattice, shape, { octaves: 2, gain: 0.6, deviation: 0.22 }, random),
  ) as [FractalNoise, FractalNoise];
  return cracks.map((crack) => traceCrack(crack, values, jags, random));
}

function traceCrack(
  crack: Crack,
  { width, unevenness }: WaxValues,
  [jagX, jagY]: readonly [FractalNoise, FractalNoise],
  random: RandomStream,
): Trace {
  const count = crack.xs.length;
  const rank = RANKS[crack.rank];
  const own = Math.exp(0.16 * unevenness * random.normal());
  const ownInk = 1 - 0.45 * Math.min(1, unevenness) * random.next() ** 2;
  const swell = carriedNoise(random);
  const fine = carriedNoise(random);
  const seep = carriedNoise(random);
  const alongs = lengthsOf(crack);
  const length = alongs[count - 1];
  const trace = {
    xs: new Float64Array(count),
    ys: new Float64Array(count),
    halves: new Float64Array(count),
    inks: new Float64Array(count),
  };
  for (let k = 0; k < count; k++) {
    const mm = k > 0 ? alongs[k] - alongs[k - 1] : 0;
    const taper =
      (crack.isJoinedAtStart ? 1 : taperAt(alongs[k], length)) *
      (crack.isJoinedAtEnd ? 1 : taperAt(length - alongs[k], length));
    const mouth =
      mouthAt(crack.isJoinedAtStart, alongs[k]) + mouthAt(crack.isJoinedAtEnd, length - alongs[k]);
    const uneven = Math.exp(unevenness * (0.13 * swell(mm, 22) + 0.26 * fine(mm, 1.2)));
    const x = crack.xs[k];
    const y = crack.ys[k];
    trace.xs[k] = x + fractalAt(jagX, x, y);
    trace.ys[k] = y + fractalAt(jagY, x, y);
    trace.halves[k] = Math.min(1.1 * width, (width / 2) * rank.width * own * uneven * (1 + mouth)) * taper;
    const ink = rank.ink * ownInk * (0.9 + 0.34 * unevenness * seep(mm, 14));
    trace.inks[k] = Math.max(0.06, Math.min(1, ink)) * Math.sqrt(taper);
  }
  return trace;
}

function lengthsOf({ xs, ys }: Crack): Float64Array {
  const alongs = new Float64Array(xs.length);
  for (let k = 1; k < xs.length; k++) {
    alongs[k] = alongs[k - 1] + Math.hypot(xs[k] - xs[k - 1], ys[k] - ys[k - 1]);
  }
  return alongs;
}

function taperAt(fromEnd: number, length: number): number {
  const t = Math.min(1, fromEnd / Math.min(TAPER, 0.45 * length));
  return t * (2 - t);
}

function mouthAt(isJoined: boolean, fromEnd: number): number {
  if (!isJoined || fromEnd > 3 * MOUTH) return 0;
  // The other crack may be finer: an end that stopped square in the open would show.
  return 0.4 * Math.exp(-fromEnd / MOUTH) - Math.max(0, 0.95 - fromEnd / POINT);
}

/** Normal noise that forgets itself over `range` mm: an Ornstein-Uhlenbeck process. */
function carriedNoise(random: RandomStream): (mm: number, range: number) => number {
  let value = random.normal();
  return (mm, range) => {
    const kept = Math.exp(-mm / range);
    value = kept * value + Math.sqrt(1 - kept * kept) * random.normal();
    return value;
  };
}
