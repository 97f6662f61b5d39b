import {
  type Box,
  type FractalNoise,
  fieldShape,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
} from 'tenter';
import { bakeFractal } from './wash.ts';

/** What the paper does to the paint on the scale of its tooth; drawn on pixels, not simulated. */
export interface Paper {
  /** The hollows, in several directions, so that no weave shows. Together of deviation about 1. */
  readonly teeth: readonly FractalNoise[];
  /** By how many mm the wet edge strays in the tooth. */
  readonly strayX: FractalNoise;
  readonly strayY: FractalNoise;
}

/** mm */
const STRAY_CELL = 0.38;
const STRAY = 0.1;

/**
 * @param tooth From hollow to hollow, mm.
 */
export function layPaper(tooth: number, box: Box, random: (name: string) => RandomStream): Paper {
  const layer = (direction: number, size: number, deviation: number) =>
    fractalNoise(
      box.lattice,
      { along: size, across: size * 0.8, direction },
      { octaves: 1, gain: 1, deviation },
      random(`tooth ${direction}`),
    );
  const stray = (name: string) =>
    fractalNoise(
      box.lattice,
      { along: STRAY_CELL, across: STRAY_CELL },
      { octaves: 1, gain: 1, deviation: STRAY },
      random(name),
    );
  return {
    teeth: [layer(24, tooth, 0.75), layer(0, tooth * 0.4, 0.5)],
    strayX: stray('stray x'),
    strayY: stray('stray y'),
  };
}

/** Pigment settles where the wash stood longest: in patches of some centimetres. */
const PATCHES = { along: 60, across: 40, direction: 20 };
const PATCH_CELL = 1.5;

/** How strongly the paint settles in the hollows of the paper, from place to place. */
export function poolPigment(
  granulation: number,
  box: Box,
  random: (name: string) => RandomStream,
): PeriodicField {
  const shape = fieldShape(box, PATCH_CELL);
  const options = { octaves: 3, gain: 0.55, deviation: 0.35 };
  const values = bakeFractal(fractalNoise(box.lattice, PATCHES, options, random('patches')), shape);
  for (let k = 0; k < values.length; k++) values[k] = granulation * 0.75 * Math.exp(Math.min(1, values[k]));
  return { ...shape, values };
}
