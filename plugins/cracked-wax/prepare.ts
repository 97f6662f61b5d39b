import {
  type FractalNoise,
  fractalNoise,
  type Lattice,
  type LatticeNoise,
  latticeNoise,
  NOISE_DEVIATION,
  parseHex,
  type RandomStream,
  type Setting,
} from 'tenter';
import { bleedOf } from './bleed.ts';
import type { WaxModel } from './model.ts';
import { growNetwork } from './network.ts';
import type { PARAMETERS } from './parameters.ts';
import { cutSegments } from './segments.ts';
import { traceCracks } from './trace.ts';

/** mm: a thread of fine cotton, how far it stays like itself, and how far edges stray at it. */
const THREAD = 0.32;
const THREAD_LENGTH = 3;
const FRAY = 0.042;

export function prepareWax(setting: Setting<typeof PARAMETERS>): WaxModel {
  const { parameters: values, box, random, report, progress } = setting;
  const cracks = growNetwork(box, values, random, (done) => progress(0.7 * done));
  const traces = traceCracks(box, cracks, values, random('traces'));
  progress(0.8);
  const bleed = bleedOf(box, traces, values, random('blush'));
  const { lattice } = box;
  const segments = cutSegments(box, traces);
  report({ name: 'cracks', value: cracks.length, unit: 'count' });
  const fray = random('fray');
  return {
    lattice,
    segments,
    bleed,
    fray: [frayNoise(lattice, fray), frayNoise(lattice, fray)],
    threads: threadsOf(lattice, random('threads')),
    dye: parseHex(values.dye) as [number, number, number],
    strength: values.strength / 100,
  };
}

function frayNoise(lattice: Lattice, random: RandomStream): FractalNoise {
  const thread = { along: 2 * THREAD, across: 2 * THREAD };
  return fractalNoise(lattice, thread, { octaves: 2, gain: 0.7, deviation: FRAY }, random);
}

function threadsOf(lattice: Lattice, random: RandomStream): FractalNoise {
  const across: LatticeNoise = latticeNoise(lattice, { along: THREAD_LENGTH, across: THREAD }, random);
  const down: LatticeNoise = latticeNoise(lattice, { along: THREAD, across: THREAD_LENGTH }, random);
  const gain = Math.SQRT1_2 / NOISE_DEVIATION;
  return { octaves: [across, down], gains: [gain, gain] };
}
