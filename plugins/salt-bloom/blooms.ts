import {
  type Arrivals,
  type Box,
  diffuse,
  drainUpwind,
  type FieldShape,
  fractalNoise,
  march,
  type RandomStream,
} from 'tenter';
import type { Grains } from './grains.ts';
import { bakeFractal, smoothstep } from './wash.ts';

/** Log slowness of the wash: noise at the width of an arm, and at that of a bundle of arms. */
const ARMS = { along: 0.62, across: 0.62 };
const BUNDLES = { along: 2.4, across: 2.4 };
const ARM_DEVIATION = 0.85;
const BUNDLE_DEVIATION = 0.5;
/** A front finds its way round slow places: it runs this much faster than in the mean. Measured. */
const DETOUR_GAIN = 1.42;
/** On cells of h mm it misses some ways round and is late by the share 0.15 h + 1.1 h^2. Measured on 0.09 to 0.4 mm. */
const latenessOn = (h: number) => 1 + 0.15 * h + 1.1 * h * h;
/** The farther it runs the faster ways it finds: how long it runs to reach so far. Measured from 1 to 12 mm. */
const runTo = (reach: number) => reach / (1.05 + 0.016 * reach);
/** mm beyond the outline to which the march goes on, for the fringe. */
const BEYOND = 0.9;
/** Catchment (mm2 per mm of its width) that makes a full arm, of a bloom that reaches 1 mm. */
const ARM_CATCHMENT = 0.36;

export interface Blooms {
  /** Share of the paint that was drawn away per cell, 0..1. */
  readonly lift: Float32Array;
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
  const start = grains.reach.map((reach) => -runTo(reach));
  const cells = shape.width * shape.height;
  const onProgress = (reached: number) => progress((0.75 * reached) / cells);
  const arrivals = march(shape, slowness, { x: grains.x, y: grains.y, start }, { until: BEYOND, onProgress });
  const content = new Float32Array(cells);
  const perWidth = Math.sqrt(shape.mmPerCellX * shape.mmPerCellY);
  for (let k = 0; k < cells; k++) content[k] = arrivals.times[k] <= 0 ? perWidth : 0;
  const catchment = widen(drainUpwind(shape, arrivals, content), shape);
  progress(0.85);
  return { lift: pullOf(grains, arrivals, catchment), arrivals };
}

/** An arm is as wide as paper and water make it, not as the cells: deviation, mm. */
const ARM_WIDTH = 0.11;
/** Deviation of an arm that is one cell wide, in cells; it has this width already. */
const CELL_WIDTH = 0.4;

function widen(catchment: Float32Array, shape: FieldShape): Float32Array {
  const variance = ARM_WIDTH ** 2 - (CELL_WIDTH * shape.mmPerCellX) ** 2;
  if (variance <= 0) return catchment;
  const even = new Float32Array(catchment.length).fill(variance / 2);
  return diffuse({ ...shape, values: catchment }, even).values;
}

/** How hard each cell is drawn from: the profile of a round bloom, or of a star, at its place. */
function pullOf(grains: Grains, { times, winners }: Arrivals, catchment: Float32Array): Float32Array {
  const lift = new Float32Array(times.length);
  const fullArm = grains.reach.map((reach) => ARM_CATCHMENT * reach ** 0.6);
  for (let k = 0; k < lift.length; k++) {
    if (!(times[k] < 0)) continue;
    const grain = winners[k];
    const reach = grains.reach[grain];
    // 1 at the grain, 0 at the outline.
    const inside = Math.min(1, -times[k] / runTo(reach));
    const feather = grains.feather[grain];
    const arm = smoothstep(catchment[k] / fullArm[grain] - 0.14);
    const root = Math.sqrt(inside);
    const round = 0.8 * root * Math.sqrt(root) * smoothstep(inside * reach * 2.5);
    const star = 0.5 * inside * root + arm * (0.22 + 0.75 * inside);
    lift[k] = grains.pull[grain] * (round + feather * (star - round));
  }
  return lift;
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
  const gain = DETOUR_GAIN / latenessOn(shape.mmPerCellX);
  for (let k = 0; k < slowness.length; k++) slowness[k] = gain * Math.exp(slowness[k] + coarse[k]);
  return slowness;
}
