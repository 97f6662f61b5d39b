import {
  type Box,
  type FractalNoise,
  fractalNoise,
  latticeNoise,
  meanLoad,
  NOISE_DEVIATION,
  type RandomStream,
  type Setting,
} from 'tenter';
import type { BrushModel } from './model.ts';
import { paintBrush } from './paint.ts';
import type { BrushValues, PARAMETERS } from './parameters.ts';
import { layStrokes } from './strokes.ts';
import { drawTracks } from './tracks.ts';

/** The mean load that is aimed at, and the least and most that strokes are thinned or thickened for it. */
const WANTED_MEAN = 0.92;
const GAINS = [0.75, 1.45] as const;

export function prepareBrush(setting: Setting<typeof PARAMETERS>): BrushModel {
  const { parameters: values, box, random, report, progress } = setting;
  const strokes = layStrokes(box, values, {
    places: random('places'),
    turns: random('turns'),
    forms: random('forms'),
  });
  const levels = drawTracks(strokes, values, random('hairs'), (done) => progress(0.9 * done));
  const model: BrushModel = {
    lattice: box.lattice,
    strokes,
    levels,
    tooth: toothOf(box, values.tooth, random('tooth')),
    roughness: 0.95 * values.roughness,
    underpaint: values.underpaint / 100,
    coat: coatOf(box, values, random('coat')),
    variation: values.variation,
    gain: 1,
  };
  report({ name: 'strokes', value: strokes.length, unit: 'count' });
  const mean = meanLoad(box, (band, layer) => paintBrush(model, band, layer));
  return { ...model, gain: Math.max(GAINS[0], Math.min(GAINS[1], WANTED_MEAN / mean)) };
}

/**
 * The thin coat under the strokes was scrubbed in with the same brush, the same way: streaks as long as its
 * strokes, from some hairs to a third of it wide.
 */
function coatOf(
  { lattice }: Box,
  { direction, length, width }: BrushValues,
  random: RandomStream,
): FractalNoise {
  const shape = { along: length, across: width / 3, direction };
  return fractalNoise(lattice, shape, { octaves: 3, gain: 0.85, lacunarity: 2.7 }, random);
}

/** Octaves of the paper's grain: sizes beside its own, strengths, and directions: one alone shows its lattice. */
const GRAIN = [
  { size: 2, strength: 0.75, direction: 0 },
  { size: 0.95, strength: 1, direction: -27 },
  { size: 0.42, strength: 0.8, direction: 0 },
] as const;

function toothOf({ lattice }: Box, tooth: number, random: RandomStream): FractalNoise {
  const power = GRAIN.reduce((sum, { strength }) => sum + strength * strength, 0);
  return {
    octaves: GRAIN.map(({ size, direction }) =>
      latticeNoise(lattice, { along: size * tooth, across: size * tooth, direction }, random),
    ),
    gains: GRAIN.map(({ strength }) => strength / (NOISE_DEVIATION * Math.sqrt(power))),
  };
}
