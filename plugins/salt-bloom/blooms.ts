import {
  type Arrivals,
  type Box,
  type FieldShape,
  fractalNoise,
  type Lattice,
  march,
  type RandomStream,
  shortestWay,
  smoothstep,
} from 'tenter';
import type { Grains } from './grains.ts';
import { rayAt } from './rays.ts';
import { bakeFractal } from './wash.ts';

/** Log slowness of the wash: noise at the width of a ray, and at that of several. */
const FINE = { along: 0.7, across: 0.7 };
const BROAD = { along: 2.8, across: 2.8 };
const FINE_DEVIATION = 0.5;
const BROAD_DEVIATION = 0.4;
/** A front finds its way round slow places: it runs this much faster than in the mean. Measured. */
const DETOUR_GAIN = 1.2;
/** mm beyond the outline to which the march goes on, for the fringe. */
const BEYOND = 1.4;
/** How short the notches between the rays are beside the longest ray, at feathering 1. */
const NOTCH = 0.68;
/** Rays wander by so many radians for each deviation of the fine noise. */
const WANDER = 0.1;

export interface Blooms {
  /** Share of the paint that was drawn away per cell, 0..1. */
  readonly lift: Float32Array;
  /** mm beyond the tip of the nearest ray, as the front counts; less than 0 inside, Infinity far off. */
  readonly beyond: Float32Array;
  /**
   * Times are mm beyond the outline of the bloom, as the front counts, Infinity far off; winners are the
   * numbers of the grains.
   */
  readonly arrivals: Arrivals;
}

export function growBlooms(
  grains: Grains,
  box: Box,
  shape: FieldShape,
  random: (name: string) => RandomStream,
  progress: (done: number) => void,
): Blooms {
  const slowness = bakeSlowness(box, shape, random);
  const start = grains.reach.map((reach) => -reach);
  const cells = shape.width * shape.height;
  const onProgress = (reached: number) => progress((0.75 * reached) / cells);
  const arrivals = march(shape, slowness, { x: grains.x, y: grains.y, start }, { until: BEYOND, onProgress });
  progress(0.85);
  return { ...drawStars(grains, arrivals, slowness, box.lattice, shape), arrivals };
}

/** How hard each cell is drawn from: a star about its grain, paler toward it and less so at its heart. */
function drawStars(
  grains: Grains,
  { times, winners }: Arrivals,
  slowness: Float32Array,
  lattice: Lattice,
  { width, mmPerCellX, mmPerCellY }: FieldShape,
): Omit<Blooms, 'arrivals'> {
  const lift = new Float32Array(times.length);
  const beyond = times.slice();
  for (let k = 0; k < lift.length; k++) {
    if (!(times[k] < 0)) continue;
    const grain = winners[k];
    const x = ((k % width) + 0.5) * mmPerCellX - grains.x[grain];
    const y = (Math.floor(k / width) + 0.5) * mmPerCellY - grains.y[grain];
    const [dx, dy] = shortestWay(lattice, x, y);
    const angle = Math.atan2(dy, dx) + WANDER * Math.log(slowness[k]);
    const ray = rayAt(grain, angle);
    const length = 1 - NOTCH * grains.feather[grain] * (1 - ray);
    // 0 at the grain, 1 at the tip of the ray.
    const out = (1 + times[k] / grains.reach[grain]) / length;
    beyond[k] = (out - 1) * length * grains.reach[grain];
    if (out >= 1) continue;
    const inside = 1 - Math.max(0, out);
    const body = smoothstep(inside / 0.3) * (0.36 + 0.64 * inside * (2 - inside));
    const heart = 1 - 0.25 * smoothstep((inside - 0.82) / 0.18);
    lift[k] = grains.pull[grain] * body * heart * (0.7 + 0.3 * ray);
  }
  return { lift, beyond };
}

function bakeSlowness(
  { lattice }: Box,
  shape: FieldShape,
  random: (name: string) => RandomStream,
): Float32Array {
  const fine = { octaves: 1, gain: 1, deviation: FINE_DEVIATION };
  const broad = { octaves: 1, gain: 1, deviation: BROAD_DEVIATION };
  const slowness = bakeFractal(fractalNoise(lattice, FINE, fine, random('arms')), shape);
  const coarse = bakeFractal(fractalNoise(lattice, BROAD, broad, random('bundles')), shape);
  for (let k = 0; k < slowness.length; k++) slowness[k] = DETOUR_GAIN * Math.exp(slowness[k] + coarse[k]);
  return slowness;
}
