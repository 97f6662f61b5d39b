import { frameOf, intoFrame, outOfFrame, wrapFrame } from './frame.ts';
import { type NinePoints, ninePoints } from './nine-points.ts';
import type { FieldShape } from './periodic.ts';
import { requirePositive } from './require.ts';
import { cutIntoSteps, unstable } from './time-step.ts';

/**
 * How fast a reaction of Gray and Scott is fed, ends and spreads, in any unit of time. One substance v eats
 * another, u, to make more of itself: u_t = Du lap u - u v^2 + F (1 - u), v_t = Dv lap v + u v^2 - (F + k) v.
 */
export interface GrayScott {
  /** F, at which u is fed and both are washed out: one number, or one per cell. */
  readonly feed: number | Float32Array;
  /** k, at which v ends besides: one number, or one per cell. */
  readonly kill: number | Float32Array;
  /** Du, mm2 per unit of time, above 0. */
  readonly diffusionU: number;
  /** Dv, mm2 per unit of time, above 0; half of Du in Pearson's figures. */
  readonly diffusionV: number;
}

/** Both substances, one number per cell, within 0..1; u = 1 and v = 0 where nothing reacts. */
export interface Reactants {
  /** What is eaten, one number per cell. */
  readonly u: Float32Array;
  /** What eats it, one number per cell. */
  readonly v: Float32Array;
}

/** How far a reaction is taken, and how it tells of itself. */
export interface ReactOptions {
  /** How long to go on, in units of time. */
  readonly duration: number;
  /** The longest step, in units of time; by default nine tenths of `grayScottStep`. */
  readonly timeStep?: number;
  /** Called with 0..1, every few steps; nobody is told where absent. */
  readonly progress?: (done: number) => void;
}

/** Pairs of feed and kill, by what they make. */
export interface FeedAndKill {
  /** F, per unit of time. */
  readonly feed: number;
  /** k, per unit of time. */
  readonly kill: number;
}

/**
 * Some classes of J. E. Pearson, *Complex patterns in a simple system*, Science 261, 189 (1993), with Du = 2 Dv:
 * `kappa` winding lines, `lambda` spots that divide until they fill the plane, `mu` short worms among spots,
 * `iota` lines that join. His map has areas; these pairs were tried here from noise and found so.
 */
export const PEARSON = {
  kappa: { feed: 0.05, kill: 0.063 },
  lambda: { feed: 0.034, kill: 0.065 },
  mu: { feed: 0.046, kill: 0.065 },
  iota: { feed: 0.046, kill: 0.0594 },
} as const satisfies Readonly<Record<string, FeedAndKill>>;

/** The most that v comes to in any of Pearson's patterns is below this; v^2 is how fast u is eaten. */
const MOST_EATEN = 0.5;
/** Steps between two looks at whether all is well. */
const LOOK = 16;
/** Beyond this a value can only have been thrown there by an unstable step, or given. */
const ASTRAY = 2;

/**
 * The largest stable time step: explicit Euler swings ever wider where a step times the fastest decay is above 2,
 * and u decays at up to Du L + F + v^2, v at Dv L + F + k, with L the fastest rate of the nine-point star
 * (16 / (3 h^2) on square cells of h mm) and v^2 taken as 1/2, more than any pattern reaches.
 *
 * @throws Fault (effect) where a diffusion is not above 0.
 */
export function grayScottStep(shape: FieldShape, rates: GrayScott): number {
  requirePositive(rates.diffusionU, 'the diffusion of u');
  requirePositive(rates.diffusionV, 'the diffusion of v');
  const { fastest } = ninePoints(shape);
  const feed = largestOf(rates.feed);
  const decayU = rates.diffusionU * fastest + feed + MOST_EATEN;
  const decayV = rates.diffusionV * fastest + feed + largestOf(rates.kill);
  return 2 / Math.max(decayU, decayV);
}

/**
 * Lets both substances react and spread over the repeat, in place, by explicit steps on a nine-point star:
 * no grid shows, no seam either. Some 12 ns per cell and step.
 *
 * Lines come out 26 to 31 roots of Du apart, worms and spots up to 36 (measured): for l mm take Du = (l / 29)^2 and cells of l / 7 or less. From noise of that size at full strength (v up to 0.3) 300 units of
 * time make a figure, 1500 an even one; `lambda`, whose spots divide, needs 10,000. A sketch has the
 * composition of the finished figure where both start from the same noise: lines hardly move, they join and smooth.
 *
 * @returns The number of steps taken.
 * @throws Fault (effect) where a time step is larger than the largest stable one, which it names, or where
 *   values go astray.
 */
export function reactGrayScott(
  shape: FieldShape,
  { u, v }: Reactants,
  rates: GrayScott,
  { duration, timeStep, progress }: ReactOptions,
): number {
  const stable = grayScottStep(shape, rates);
  const steps = cutIntoSteps('a reaction of Gray and Scott', duration, stable, timeStep);
  const frame = frameOf(shape);
  const star = ninePoints(shape);
  const feed = perCell(shape, rates.feed);
  const kill = perCell(shape, rates.kill);
  let [fromU, fromV] = [intoFrame(frame, shape, u), intoFrame(frame, shape, v)];
  let [toU, toV] = [fromU.slice(), fromV.slice()] as [Float32Array, Float32Array];
  const starU = scaled(star, steps.length * rates.diffusionU);
  const starV = scaled(star, steps.length * rates.diffusionV);
  for (let step = 0; step < steps.count; step++) {
    react(frame.stride, shape, [fromU, fromV, toU, toV], starU, starV, feed, kill, steps.length);
    wrapFrame(frame, toU);
    wrapFrame(frame, toV);
    [fromU, toU] = [toU, fromU];
    [fromV, toV] = [toV, fromV];
    if (step % LOOK < LOOK - 1 && step < steps.count - 1) continue;
    requireSound(fromU, fromV, stable, steps.length);
    progress?.((step + 1) / steps.count);
  }
  outOfFrame(frame, shape, fromU, u);
  outOfFrame(frame, shape, fromV, v);
  return steps.count;
}

/** One step over all cells, from the first two framed fields to the last two. */
function react(
  stride: number,
  { width, height }: FieldShape,
  [u, v, nextU, nextV]: readonly Float32Array[],
  starU: NinePoints,
  starV: NinePoints,
  feed: Float32Array,
  kill: Float32Array,
  time: number,
): void {
  const { centre: u0, beside: u1, above: u2, corner: u3 } = starU;
  const { centre: v0, beside: v1, above: v2, corner: v3 } = starV;
  for (let row = 0, cell = 0; row < height; row++) {
    const start = 1 + (row + 1) * stride;
    // Carried along the row: the cell before and here, and the sums of those above and below each.
    let [lastU, hereU, lastV, hereV] = [u[start - 1], u[start], v[start - 1], v[start]];
    let lastBesideU = u[start - 1 - stride] + u[start - 1 + stride];
    let besideU = u[start - stride] + u[start + stride];
    let lastBesideV = v[start - 1 - stride] + v[start - 1 + stride];
    let besideV = v[start - stride] + v[start + stride];
    for (let k = start; k < start + width; k++, cell++) {
      const nextHereU = u[k + 1];
      const nextHereV = v[k + 1];
      const nextBesideU = u[k + 1 - stride] + u[k + 1 + stride];
      const nextBesideV = v[k + 1 - stride] + v[k + 1 + stride];
      const eaten = time * hereU * hereV * hereV;
      const fed = time * feed[cell];
      nextU[k] =
        hereU +
        u0 * hereU +
        u1 * (lastU + nextHereU) +
        u2 * besideU +
        u3 * (lastBesideU + nextBesideU) +
        fed * (1 - hereU) -
        eaten;
      nextV[k] =
        hereV +
        v0 * hereV +
        v1 * (lastV + nextHereV) +
        v2 * besideV +
        v3 * (lastBesideV + nextBesideV) +
        eaten -
        (fed + time * kill[cell]) * hereV;
      lastU = hereU;
      hereU = nextHereU;
      lastV = hereV;
      hereV = nextHereV;
      lastBesideU = besideU;
      besideU = nextBesideU;
      lastBesideV = besideV;
      besideV = nextBesideV;
    }
  }
}

function scaled({ centre, beside, above, corner, fastest }: NinePoints, by: number): NinePoints {
  return {
    centre: centre * by,
    beside: beside * by,
    above: above * by,
    corner: corner * by,
    fastest: fastest * by,
  };
}

function perCell({ width, height }: FieldShape, rate: number | Float32Array): Float32Array {
  return typeof rate === 'number' ? new Float32Array(width * height).fill(rate) : rate;
}

function largestOf(rate: number | Float32Array): number {
  return typeof rate === 'number' ? rate : rate.reduce((most, value) => Math.max(most, value), 0);
}

function requireSound(u: Float32Array, v: Float32Array, stable: number, step: number): void {
  for (let k = 0; k < u.length; k++) {
    if (Math.abs(u[k]) < ASTRAY && Math.abs(v[k]) < ASTRAY) continue;
    throw unstable(
      'a reaction of Gray and Scott, begun with u and v within 0..1',
      stable,
      `${step}, and u ${u[k]}, v ${v[k]}`,
    );
  }
}
