import {
  addFractalRow,
  type Box,
  type FieldShape,
  type FractalNoise,
  fractalAt,
  fractalNoise,
  type RandomStream,
  smoothstep,
} from 'tenter';
import type { SaltValues } from './parameters.ts';

/** The wash before the salt falls: how wet it is where, and how much paint lies where. */
export interface Wash {
  /** 0..1 */
  readonly wetness: number;
  /** Share of the wash that had begun to dry, 0..1. */
  readonly dried: number;
  readonly drying: FractalNoise;
  readonly tone: FractalNoise;
}

/** Patches that dry first are as large as a hand, with ragged shores. */
const DRYING = { along: 46, across: 46 };
/** A brushful of paint: pools and thin places drawn out a little along the stroke. */
const TONE = { along: 85, across: 48, direction: 20 };
/** Deviation of the log of the paint at unevenness 1. */
const TONE_DEVIATION = 0.17;

export function layWash(values: SaltValues, box: Box, random: (name: string) => RandomStream): Wash {
  return {
    wetness: values.wetness / 100,
    dried: values.dried / 100,
    drying: fractalNoise(box.lattice, DRYING, { octaves: 4, gain: 0.5 }, random('drying')),
    tone: fractalNoise(
      box.lattice,
      TONE,
      { octaves: 5, gain: 0.55, deviation: TONE_DEVIATION * values.unevenness },
      random('tone'),
    ),
  };
}

/** How wet the wash is at a point, 0..1. */
export function wetnessAt(wash: Wash, x: number, y: number): number {
  return localWetness(wash, fractalAt(wash.drying, x, y));
}

/** How wet the wash is on every cell, 0..1. */
export function bakeWetness(wash: Wash, shape: FieldShape): Float32Array {
  const wet = bakeFractal(wash.drying, shape);
  for (let k = 0; k < wet.length; k++) wet[k] = localWetness(wash, wet[k]);
  return wet;
}

/** The paint of the wash on every cell, about 1. */
export function bakeTone(wash: Wash, shape: FieldShape): Float32Array {
  const tone = bakeFractal(wash.tone, shape);
  for (let k = 0; k < tone.length; k++) tone[k] = Math.exp(tone[k]);
  return tone;
}

/** A fractal at the centre of every cell. */
export function bakeFractal(fractal: FractalNoise, shape: FieldShape): Float32Array {
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const values = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    addFractalRow(fractal, mmPerCellX / 2, mmPerCellX, (j + 0.5) * mmPerCellY, 1, values, width, j * width);
  }
  return values;
}

/** From dried (a tenth of the wetness is left) over a shore to wet, and a little wetter still in pools. */
function localWetness({ wetness, dried }: Wash, noise: number): number {
  // The noise is about normal: this level leaves about `dried` of the plane below it.
  const level = (2 * dried - 1) * 1.7;
  const shore = smoothstep((noise - level) / 1.1 + 0.5);
  return Math.min(1, wetness * (0.1 + 0.9 * shore) * (1 + 0.14 * noise));
}
