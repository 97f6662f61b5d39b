import {
  type Box,
  cellIndex,
  type FieldShape,
  fieldShape,
  fractalNoise,
  type PeriodicField,
  type RandomStream,
  smoothstep,
} from 'tenter';
import type { SaltValues } from './parameters.ts';
import { coarsen } from './soften.ts';
import { bakeFractal, bakeWetness, type Wash } from './wash.ts';

/** What the water does to whatever is painted there. Smooth, on cells of its own. */
export interface Running {
  /** How far colours run into one another, mm. */
  readonly bleed: PeriodicField;
  /** Where the paint came from, mm. */
  readonly fromX: PeriodicField;
  readonly fromY: PeriodicField;
}

/** mm */
const CELL = 0.4;
/** Wet passages are broken up: pools and damp places of some centimetres. */
const PASSAGES = { along: 24, across: 24 };
/** Fingers of wet paint, mm. */
const FINGERS = { along: 3, across: 3 };
/** Of the run: how far in a wet passage, and how much further in a bloom. */
const RUN_IN_WASH = 0.7;
const RUN_IN_BLOOM = 1.1;
const FINGER_SHARE = 0.55;
/** mm2: paint comes from nearer the grain by this much for each part of it that is lifted per mm. */
const DRAG = 4;
/** mm: no brine carries it further. */
const MOST_DRAG = 1.6;

/**
 * Colours run where the wash is wet, further where brine spread, and are carried outward with the brine: up
 * the slope of what was lifted lies the grain.
 *
 * @param lift Share of the paint that was drawn away, per cell of `shape`.
 */
export function runColours(
  values: SaltValues,
  box: Box,
  shape: FieldShape,
  wash: Wash,
  lift: Float32Array,
  random: (name: string) => RandomStream,
): Running {
  const cells = fieldShape(box, Math.max(CELL, shape.mmPerCellX));
  const lifted = coarsen(lift, shape, cells).values;
  const wet = bakeWetness(wash, cells);
  const bake = (name: string, size: typeof FINGERS, octaves: number) =>
    bakeFractal(fractalNoise(box.lattice, size, { octaves, gain: 0.6 }, random(name)), cells);
  const passages = bake('passages', PASSAGES, 3);
  const fingersX = bake('fingers x', FINGERS, 2);
  const fingersY = bake('fingers y', FINGERS, 2);
  const bleed = new Float32Array(wet.length);
  const fromX = new Float32Array(wet.length);
  const fromY = new Float32Array(wet.length);
  const { width, height, mmPerCellX, mmPerCellY } = cells;
  const drag = Math.min(1, values.run) * DRAG;
  for (let row = 0, k = 0; row < height; row++) {
    for (let column = 0; column < width; column++, k++) {
      const at = (i: number, j: number) => lifted[cellIndex(cells, column + i, row + j)];
      const soaked = smoothstep(wet[k] / 0.5) * smoothstep(0.45 + 0.5 * passages[k]);
      const here = values.run * (RUN_IN_WASH * soaked + RUN_IN_BLOOM * lifted[k]);
      bleed[k] = here;
      const upX = (at(1, 0) - at(-1, 0)) / (2 * mmPerCellX);
      const upY = (at(0, 1) - at(0, -1)) / (2 * mmPerCellY);
      const slope = Math.hypot(upX, upY);
      const carried = slope > 0 ? Math.min(drag, MOST_DRAG / slope) : 0;
      fromX[k] = carried * upX + FINGER_SHARE * here * fingersX[k];
      fromY[k] = carried * upY + FINGER_SHARE * here * fingersY[k];
    }
  }
  const field = (list: Float32Array) => ({ ...cells, values: list });
  return { bleed: field(bleed), fromX: field(fromX), fromY: field(fromY) };
}
