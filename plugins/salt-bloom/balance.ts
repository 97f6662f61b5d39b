import { type Box, type FieldShape, fractalNoise, type RandomStream, smoothstep } from 'tenter';
import { growBlooms } from './blooms.ts';
import type { Grains } from './grains.ts';
import type { Ground } from './ground.ts';
import type { SaltValues } from './parameters.ts';
import { soften, spread } from './soften.ts';
import { addSpots } from './spots.ts';
import { leaveVeins } from './veins.ts';
import { bakeFractal, bakeTone, bakeWetness, type Wash } from './wash.ts';

/** Loose clumps of pigment, some hollows wide: deviation of the paint at granulation 1. */
const CLUMPS = { octaves: 2, gain: 0.7, deviation: 0.035 };
const CLUMP_HOLLOWS = 2.6;

/** What the salt falls on, beside how wet it is. */
export interface Laid {
  /** The wash as a brush laid it; an even one where absent. */
  readonly ground?: Ground;
  /** How much paint there is to be lifted, 0..1 per cell; all of it where absent. */
  readonly painted?: Float32Array;
}

/** How far pushed paint spreads before it lies still: deviation, mm. */
const PUSHED = 1.1;
/** The fringe is broken into lengths of about so many mm. */
const BREAKS = { along: 3.2, across: 3.2 };

/**
 * Where the paint lies once salt and wash have dried: what the grains drew away, and where it went.
 * Mean 1: paint is moved, not lost.
 */
export function dryLoad(
  values: SaltValues,
  box: Box,
  shape: FieldShape,
  grains: Grains,
  wash: Wash,
  random: (name: string) => RandomStream,
  progress: (done: number) => void,
  { ground, painted }: Laid = {},
): { readonly load: Float32Array; readonly lift: Float32Array } {
  const { lift, beyond, winners } = liftedShare(values, box, shape, grains, wash, random, (done) =>
    progress(0.8 * done),
  );
  const tone = bakeTone(wash, shape);
  if (ground) for (let k = 0; k < tone.length; k++) tone[k] *= ground.paint[k];
  if (painted) for (let k = 0; k < lift.length; k++) lift[k] *= painted[k];
  const movable = 1 - values.staining / 100;
  const near = spread(
    lift.map((share, k) => tone[k] * movable * share),
    box,
    shape,
    PUSHED,
  );
  progress(0.9);
  const breaks = bakeFractal(
    fractalNoise(box.lattice, BREAKS, { octaves: 3, gain: 0.6 }, random('fringe')),
    shape,
  );
  const wide = CLUMP_HOLLOWS * values.tooth;
  const clumps = bakeFractal(
    fractalNoise(box.lattice, { along: wide, across: wide, direction: -33 }, CLUMPS, random('clumps')),
    shape,
  );
  const specks = new Float32Array(lift.length);
  addSpots(
    specks,
    grains,
    shape,
    (k) => 0.1 + 0.07 * grains.size[k],
    (k) => 0.5 * grains.speck[k] * grains.pull[k],
  );
  const load = new Float32Array(lift.length);
  for (let k = 0; k < load.length; k++) {
    const open = (1 - lift[k]) ** 2;
    const ragged = smoothstep(0.35 + 0.4 * breaks[k]);
    const pull = winners[k] < 0 ? 0 : grains.pull[winners[k]];
    const edge = pull * Math.exp(-(((beyond[k] - 0.25) / 0.7) ** 2));
    const deposit = open * (near[k] * (1 + 0.9 * ragged) + 0.18 * edge * ragged);
    const clump = Math.exp(values.granulation * clumps[k]);
    const drawn = values.fringe * deposit + specks[k];
    load[k] = clump * (tone[k] * (1 - movable * lift[k]) + (painted ? painted[k] * drawn : drawn));
  }
  return { load: toMeanOne(load), lift };
}

/** The share of the paint that the grains drew away, blurred as far as the wash was wet. */
function liftedShare(
  values: SaltValues,
  box: Box,
  shape: FieldShape,
  grains: Grains,
  wash: Wash,
  random: (name: string) => RandomStream,
  progress: (done: number) => void,
) {
  const { lift, beyond, arrivals } = growBlooms(grains, box, shape, random, (done) => progress(0.8 * done));
  addSpots(
    lift,
    grains,
    shape,
    (k) => 0.1 + 0.2 * Math.min(1.6, grains.size[k]),
    (k) => 0.35 * grains.pull[k],
  );
  // Where pulls add up, each draws from what the others left.
  for (let k = 0; k < lift.length; k++) lift[k] = 1 - Math.exp(-2 * lift[k]);
  leaveVeins(lift, shape, arrivals, values.fringe);
  const { winners } = arrivals;
  return { lift: soften(lift, box, shape, bakeWetness(wash, shape), grains, winners), beyond, winners };
}

function toMeanOne(load: Float32Array): Float32Array {
  let sum = 0;
  for (let k = 0; k < load.length; k++) sum += load[k];
  const scale = load.length / sum;
  for (let k = 0; k < load.length; k++) load[k] *= scale;
  return load;
}
