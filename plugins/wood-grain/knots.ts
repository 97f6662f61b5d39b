import type { RandomStream } from 'tenter';
import type { GrainSample } from './nodes.ts';

/** A knot in the piece's own mm. */
export interface Knot {
  readonly u: number;
  readonly v: number;
  /** Half its size across the grain, mm. */
  readonly size: number;
  /** Along the grain over across it: above 1 an oval of a plain-sawn face, below 1 a spike of a quartered one. */
  readonly slender: number;
  readonly seed: number;
}

/** How far a knot bends the grain, in its own sizes. */
const REACH = 6;
/** The grain parts a little outside the knot: its bark and the first rings round it. */
const COLLAR = 1.12;

/** Places for knots in a piece, apart from one another and off its edges. */
export function scatterKnots(
  count: number,
  width: number,
  length: number,
  slender: number,
  random: RandomStream,
): Knot[] {
  const knots: Knot[] = [];
  for (let attempt = 0; attempt < 40 * count && knots.length < count; attempt++) {
    const size = Math.min(width / 5, 2.6 + 6 * random.next() ** 1.8);
    const margin = size * 1.8;
    const knot = {
      u: random.between(margin, Math.max(margin, width - margin)),
      v: random.between(margin, Math.max(margin, length - margin)),
      size,
      slender: slender * random.between(0.85, 1.25),
      seed: random.bits(),
    };
    const isFree = knots.every(
      (other) => Math.hypot(other.u - knot.u, (other.v - knot.v) / 2) > 4 * (other.size + size),
    );
    if (isFree) knots.push(knot);
  }
  return knots;
}

/**
 * Lets the grain flow round the knots. The rings part like the streamlines of an ideal fluid round a
 * cylinder, psi = y * (1 - a^2 / r^2) (Lamb, *Hydrodynamics*, art. 68), faded out at a few sizes.
 *
 * @param centres Radius of the undisturbed grain at each knot, mm.
 */
export function bendRoundKnots(
  knots: readonly Knot[],
  centres: readonly number[],
  u: number,
  v: number,
  out: GrainSample,
): void {
  for (let k = 0; k < knots.length; k++) {
    const knot = knots[k];
    const du = u - knot.u;
    const dv = (v - knot.v) / knot.slender;
    const squared = (du * du + dv * dv) / (knot.size * knot.size);
    if (squared >= REACH * REACH) continue;
    const fade = (1 - squared / (REACH * REACH)) ** 2;
    const part = Math.min(1, (COLLAR * COLLAR) / squared) * fade;
    out.radius += (centres[k] - out.radius) * part;
    out.drift -= du * part;
    // Wood round a knot is denser and full of resin.
    out.wash -= 0.1 * Math.exp(-Math.max(0, squared - 1) / 5);
  }
}
