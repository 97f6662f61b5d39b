import {
  type Box,
  type FractalNoise,
  fieldShape,
  fractalNoise,
  layWashPaper,
  type PeriodicField,
  type RandomStream,
  type WashPaper,
} from 'tenter';
import { bakeFractal } from './wash.ts';

/** What the paper does to the paint on the scale of its tooth; drawn on pixels, not simulated. */
export interface Paper {
  /** The hollows that paint settles in. */
  readonly grain: WashPaper;
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
  const stray = (name: string) =>
    fractalNoise(
      box.lattice,
      { along: STRAY_CELL, across: STRAY_CELL },
      { octaves: 1, gain: 1, deviation: STRAY },
      random(name),
    );
  return {
    grain: layWashPaper(tooth, 0, box, random),
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
