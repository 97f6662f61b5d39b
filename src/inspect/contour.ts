import type { Sides } from './foretell.ts';
import type { Room } from './room.ts';
import type { Strip } from './strip.ts';

/** How outlines go on over a line. */
export interface Contours {
  /** Weighted sum of how far each fails to go on: 0 straight on, 1 at 45 degrees off, 2 lost. */
  readonly broken: number;
  /** Sum of the weights: how much outline crosses. */
  readonly weight: number;
}

/** Pixels to each side that a direction is judged from, and places along the line. */
export const CONTOUR_TAPS = 5;
const HALF_WINDOW = 2;
const SLACK = 2;
/** An outline must rise by about 4 L* per pixel to count: squared gradients summed over 3 x 5 px. */
const LEAST_STRENGTH = 200;
/** 0 is no direction at all, 1 a perfectly straight outline. */
const LEAST_COHERENCE = 0.7;
/** Outlines nearer to the line's own direction than 45 degrees do not cross it within the taps. */
const STEEPEST = Math.PI / 4;
/** Beyond the line an outline must keep this share of its strength. */
const KEPT_STRENGTH = 0.25;

/**
 * Looks at every outline that crosses a line whether it goes on beyond it: at the place where its
 * direction leads to, with the direction it had. Directions are those of the structure tensor (Förstner
 * and Gülch 1987; Bigün and Granlund 1987), taken on each side by itself.
 */
export function contoursOver({ before, after }: Sides, room: Room): Contours {
  const { count, taps } = before;
  if (taps < CONTOUR_TAPS || count < 4 * CONTOUR_TAPS) return { broken: 0, weight: 0 };
  const [near, far] = [tensorOf(before, -1, room, 0), tensorOf(after, 1, room, 1)];
  const there = follow(near, far, 1);
  const back = follow(far, near, -1);
  return { broken: there.broken + back.broken, weight: there.weight + back.weight };
}

function follow(from: Tensor, to: Tensor, way: 1 | -1): Contours {
  const count = from.nn.length;
  const margin = HALF_WINDOW + 1;
  let [broken, weight] = [0, 0];
  for (let place = margin; place < count - margin; place++) {
    const strength = from.nn[place] + from.tt[place];
    if (strength < LEAST_STRENGTH) continue;
    const x = from.tt[place] - from.nn[place];
    const y = 2 * from.nt[place];
    if (isSteep(x, y) || !isCoherent(x, y, strength)) continue;
    const angle = Math.atan2(y, x) / 2;
    if (Math.abs(angle) > STEEPEST) continue;
    const landing = Math.round(place - way * CONTOUR_TAPS * Math.tan(angle));
    if (landing < margin || landing >= count - margin) continue;
    const share = Math.sqrt(strength);
    broken += share * misfit(to, landing, strength, x, y);
    weight += share;
  }
  return { broken, weight };
}

/** How much of a square may be lost to rounding, and far more. */
const ROUNDING = 1e-9;

/** Steeper than `STEEPEST`, told without an angle: most outlines of a texture are, and an angle costs much. */
function isSteep(x: number, y: number): boolean {
  return x < -ROUNDING * Math.abs(y);
}

/** Whether (x, y) is as long as the share of `strength` that is asked; the root is taken only where it is close. */
function isCoherent(x: number, y: number, strength: number): boolean {
  const least = LEAST_COHERENCE * strength;
  const over = x * x + y * y - least * least;
  if (Math.abs(over) > ROUNDING * least * least) return over > 0;
  return Math.hypot(x, y) >= least;
}

/** How outlines arrive at a mirror line. */
export interface Arrivals {
  /** Weighted mean of 1 - cos 4a over the outlines' angles a: 0 all square, 2 all at 45 degrees. */
  readonly aslant: number;
  /** How many outlines arrive. */
  readonly outlines: number;
}

/** Outlines nearer to the line's own direction than this do not arrive at it. */
const ARRIVING = 1.1;

/**
 * Looks at every outline next to a mirror line whether it arrives square. One that does goes on
 * smoothly in its reflection; one at the angle a is bent there by 2a, in a corner.
 */
export function arrivalsAt(side: Strip, room: Room): Arrivals {
  if (side.taps < CONTOUR_TAPS || side.count < 4 * CONTOUR_TAPS) return { aslant: 0, outlines: 0 };
  const { nn, nt, tt } = tensorOf(side, 1, room, 0);
  let [bent, weight, outlines, last] = [0, 0, 0, -2];
  for (let place = 0; place < side.count; place++) {
    const strength = nn[place] + tt[place];
    const x = tt[place] - nn[place];
    const y = 2 * nt[place];
    if (strength < LEAST_STRENGTH || !isCoherent(x, y, strength)) continue;
    const angle = Math.atan2(y, x) / 2;
    if (Math.abs(angle) > ARRIVING) continue;
    bent += Math.sqrt(strength) * (1 - Math.cos(4 * angle));
    weight += Math.sqrt(strength);
    if (place > last + 1) outlines++;
    last = place;
  }
  return { aslant: weight > 0 ? bent / weight : 0, outlines };
}

/** Squared gradients on one side of a line: `nn` across it, `tt` along it, `nt` the product. */
interface Tensor {
  readonly nn: Float32Array;
  readonly nt: Float32Array;
  readonly tt: Float32Array;
}

/** 0 where the outline goes on, 2 where there is none. (x, y) is its direction, the angle doubled. */
function misfit({ nn, nt, tt }: Tensor, landing: number, strength: number, x: number, y: number): number {
  let [best, at] = [0, -1];
  const last = nn.length - HALF_WINDOW - 2;
  for (
    let place = Math.max(HALF_WINDOW + 1, landing - SLACK);
    place <= Math.min(last, landing + SLACK);
    place++
  ) {
    if (nn[place] + tt[place] > best) [best, at] = [nn[place] + tt[place], place];
  }
  if (at < 0 || best < KEPT_STRENGTH * strength) return 2;
  const [u, v] = [tt[at] - nn[at], 2 * nt[at]];
  const length = Math.hypot(u, v);
  const cosine = (u * x + v * y) / (length * Math.hypot(x, y) + 1e-9);
  return 1 - cosine * Math.min(1, length / best / LEAST_COHERENCE);
}

/**
 * @param way 1 where the taps go to higher columns (rows) of the plane, -1 where to lower.
 * @param room For what is given, which lasts until the same `which` is asked again.
 */
function tensorOf({ channels, count, taps }: Strip, way: 1 | -1, room: Room, which: 0 | 1): Tensor {
  const [nn, nt, tt] = [0, 1, 2].map((place) => room.singles(place, count));
  for (const samples of channels) addGradients(samples, taps, way, { nn, nt, tt });
  const first = 3 + 3 * which;
  return {
    nn: windowed(nn, room.singles(first, count)),
    nt: windowed(nt, room.singles(first + 1, count)),
    tt: windowed(tt, room.singles(first + 2, count)),
  };
}

/** Adds the squared gradients of one channel at all places that have neighbours, over the taps that do. */
function addGradients(samples: Float32Array, taps: number, way: 1 | -1, { nn, nt, tt }: Tensor): void {
  for (let place = 1; place < nn.length - 1; place++) {
    let acrossAcross = 0;
    let acrossAlong = 0;
    let alongAlong = 0;
    const last = (place + 1) * taps - 1;
    let before = samples[place * taps];
    let here = samples[place * taps + 1];
    for (let at = place * taps + 1; at < last; at++) {
      const beyond = samples[at + 1];
      const across = 0.5 * (beyond - before);
      const along = 0.5 * (samples[at + taps] - samples[at - taps]);
      acrossAcross += across * across;
      acrossAlong += across * along;
      alongAlong += along * along;
      before = here;
      here = beyond;
    }
    nn[place] += acrossAcross;
    nt[place] += way * acrossAlong;
    tt[place] += alongAlong;
  }
}

function windowed(values: Float32Array, sums: Float32Array): Float32Array {
  for (let place = HALF_WINDOW; place < values.length - HALF_WINDOW; place++) {
    let sum = 0;
    for (let k = -HALF_WINDOW; k <= HALF_WINDOW; k++) sum += values[place + k];
    sums[place] = sum;
  }
  return sums;
}
