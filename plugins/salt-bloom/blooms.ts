import { type Box, drainUpwind, type FieldShape, fractalNoise, march, type RandomStream } from 'tenter';
import type { Grains } from './grains.ts';
import { bakeFractal, smoothstep } from './wash.ts';

/** Log slowness of the wash: noise at the width of an arm, and at that of a bundle of arms. */
const ARMS = { along: 0.62, across: 0.62 };
const BUNDLES = { along: 2.4, across: 2.4 };
const ARM_DEVIATION = 0.85;
const BUNDLE_DEVIATION = 0.5;
/** A front finds its way round slow places: it runs this much faster than in the mean. Measured. */
const DETOUR_GAIN = 1.35;
/** mm beyond the outline to which the march goes on, for the fringe. */
export const BEYOND = 1.2;
/** Catchment (mm2 per mm of its width) that makes a full arm, of a bloom that reaches 1 mm. */
const ARM_CATCHMENT = 0.27;

export interface Blooms {
  /** Share of the paint that was drawn away per cell, 0..1. */
  readonly lift: Float32Array;
  /** mm from the outline of the nearest bloom, outside, as the front counts; Infinity far off. */
  readonly beyond: Float32Array;
  /** Number of the grain whose bloom or fringe a cell belongs to, -1 for none. */
  readonly winners: Int32Array;
}

export function growBlooms(
  grains: Grains,
  box: Box,
  shape: FieldShape,
  random: (name: string) => RandomStream,
  progress: (done: number) => void,
): Blooms {
  const slowness = bakeSlowness(box, shape, random);
  const start = Float64Array.from(grains.reach, (reach) => -reach);
  const cells = shape.width * shape.height;
  const onProgress = (reached: number) => progress(reached / cells);
  const arrivals = march(shape, slowness, { x: grains.x, y: grains.y, start }, { until: BEYOND, onProgress });
  const area = shape.mmPerCellX * shape.mmPerCellY;
  const side = Math.sqrt(area);
  const content = new Float32Array(cells);
  for (let k = 0; k < cells; k++) content[k] = arrivals.times[k] <= 0 ? area / side : 0;
  const catchment = drainUpwind(shape, arrivals, content);
  const lift = new Float32Array(cells);
  const { times, winners, order } = arrivals;
  for (let n = 0; n < order.length; n++) {
    const k = order[n];
    if (times[k] >= 0) continue;
    const grain = winners[k];
    const reach = grains.reach[grain];
    const u = Math.max(0, 1 + times[k] / reach);
    const feather = grains.feather[grain];
    const arm = smoothstep(catchment[k] / (ARM_CATCHMENT * reach ** 0.6) - 0.08);
    const body = (1 - u) ** 0.8;
    const edge = smoothstep((1 - u) * reach * 2.5);
    const round = 0.8 * body * edge;
    const star = 0.5 * body * body + arm * (0.22 + 0.75 * (1 - u));
    lift[k] = grains.pull[grain] * (round + feather * (star - round));
  }
  return { lift, beyond: times, winners };
}

function bakeSlowness(box: Box, shape: FieldShape, random: (name: string) => RandomStream): Float32Array {
  const { lattice } = box;
  const arms = fractalNoise(lattice, ARMS, { octaves: 1, gain: 1, deviation: ARM_DEVIATION }, random('arms'));
  const bundles = fractalNoise(
    lattice,
    BUNDLES,
    { octaves: 1, gain: 1, deviation: BUNDLE_DEVIATION },
    random('bundles'),
  );
  const slowness = bakeFractal(arms, shape);
  const coarse = bakeFractal(bundles, shape);
  for (let k = 0; k < slowness.length; k++) slowness[k] = DETOUR_GAIN * Math.exp(slowness[k] + coarse[k]);
  return slowness;
}
