import type { Lattice } from '../repeat/lattice.ts';
import type { CellShape } from './cells.ts';
import { type LatticeNoise, latticeNoise, NOISE_DEVIATION, noiseAt } from './noise.ts';
import { addNoiseRow } from './noise-row.ts';
import type { RandomStream } from './random.ts';
import { requirePositive } from './require.ts';

/** How a fractal sum is built up. */
export interface FractalShape {
  /** How many noises are summed, at least 1. */
  readonly octaves: number;
  /** Each octave's amplitude as a share of the one before: 2^-H for a fractal of exponent H (Saupe 1988). */
  readonly gain: number;
  /** How many times finer each octave's cells are than those of the one before; default 2. */
  readonly lacunarity?: number;
  /** Standard deviation of the sum; default 1. */
  readonly deviation?: number;
}

/**
 * A sum of lattice noises, each finer and fainter, every one closing over the repeat by itself.
 * Mean 0 and the stated standard deviation. Plain data.
 */
export interface FractalNoise {
  /** The noises, coarsest first. */
  readonly octaves: readonly LatticeNoise[];
  /** What each octave is multiplied by; one number per octave. */
  readonly gains: readonly number[];
}

/**
 * A fractal sum whose coarsest cells are about `shape`, in mm, closing over `lattice`.
 *
 * Each octave is snapped to the lattice anew, so the sum closes for any lacunarity. Each is also
 * moved by a random part of a cell: else the zeros that gradient noise has at its lattice points
 * would fall together and show as a grid.
 */
export function fractalNoise(
  lattice: Lattice,
  shape: CellShape,
  { octaves, gain, lacunarity = 2, deviation = 1 }: FractalShape,
  random: RandomStream,
): FractalNoise {
  requirePositive(octaves, 'the number of octaves');
  const noises: LatticeNoise[] = [];
  const gains: number[] = [];
  let power = 0;
  for (let octave = 0; octave < octaves; octave++) {
    const finer = lacunarity ** octave;
    const cell = { ...shape, along: shape.along / finer, across: shape.across / finer };
    noises.push(latticeNoise(lattice, cell, random));
    gains.push(gain ** octave);
    power += gain ** (2 * octave);
  }
  // Independent octaves: their variances add.
  const unit = deviation / (NOISE_DEVIATION * Math.sqrt(power));
  return { octaves: noises, gains: gains.map((share) => share * unit) };
}

/** The sum at one point anywhere on the plane, mm. */
export function fractalAt({ octaves, gains }: FractalNoise, x: number, y: number): number {
  let sum = 0;
  for (let k = 0; k < octaves.length; k++) sum += gains[k] * noiseAt(octaves[k], x, y);
  return sum;
}

/**
 * Adds `gain` times the sum along a row of points to `row`; see `addNoiseRow` for the arguments.
 * The octaves are added one after the other, so a float32 row rounds once per octave.
 */
export function addFractalRow(
  { octaves, gains }: FractalNoise,
  x0: number,
  step: number,
  y: number,
  gain: number,
  row: Float32Array | Float64Array,
  count: number,
  offset = 0,
): void {
  for (let k = 0; k < octaves.length; k++) {
    addNoiseRow(octaves[k], x0, step, y, gain * gains[k], row, count, offset);
  }
}
