import { addBilinearRow, type FieldShape, type PeriodicField } from '../field/periodic.ts';
import type { RandomStream } from '../field/random.ts';
import { smoothstep } from '../field/smoothstep.ts';
import type { Box } from '../repeat/repeat.ts';
import { bakeNoise } from './bake.ts';

/** What the water left behind: how much paint lies on each cell, and how far it had dried when it was met. */
export interface Stood {
  readonly paint: PeriodicField;
  readonly dry: PeriodicField;
}

/** Shares of an even wash between which paint begins to settle and settles fully. */
const THIN = 0.35;
const DEEP = 1.75;
/** What settles even in a thin film; and what drying early takes of the rest. */
const LEAST = 0.08;
const HURRIED = 0.55;
/** What settles on an even wash that stood at granulation 1; and how soon hollows are full. */
const USUAL = 1.5;
const FILLED = 0.3;

/** How strongly paint settles in the hollows: where the puddle was deep and stood long, and in patches. */
export function settlingOf(
  box: Box,
  shape: FieldShape,
  granulation: number,
  { paint, dry }: Stood,
  random: (name: string) => RandomStream,
): PeriodicField {
  const noise = (along: number, across: number, octaves: number, deviation: number, name: string) =>
    bakeNoise(box, shape, { along, across, direction: 19 }, { octaves, gain: 0.6, deviation }, random(name));
  const patches = noise(34, 23, 2, 0.42, 'patches');
  const flocks = noise(5.5, 3.8, 2, 0.32, 'flocks');
  const [deep, early] = [new Float32Array(shape.width), new Float32Array(shape.width)];
  const values = new Float32Array(patches.length);
  for (let j = 0, k = 0; j < shape.height; j++) {
    const fill = (field: PeriodicField, row: Float32Array) =>
      addBilinearRow(
        field,
        shape.mmPerCellX / 2,
        shape.mmPerCellX,
        (j + 0.5) * shape.mmPerCellY,
        1,
        row.fill(0),
        shape.width,
      );
    fill(paint, deep);
    fill(dry, early);
    for (let i = 0; i < shape.width; i++, k++) {
      const stood =
        LEAST + smoothstep((deep[i] - THIN) / (DEEP - THIN)) * (1 - HURRIED * Math.min(1, early[i]));
      const sunk = granulation * USUAL * stood * Math.exp(Math.min(0.7, patches[k] + flocks[k]));
      values[k] = sunk / (1 + FILLED * sunk);
    }
  }
  return { ...shape, values };
}

/** Where heavy paint drew together and where it thinned, mean 0 and deviation 1: flocks of some millimetres. */
export function mottleOf(box: Box, shape: FieldShape, random: (name: string) => RandomStream): Float32Array {
  return bakeNoise(
    box,
    shape,
    { along: 9, across: 6.4, direction: -23 },
    { octaves: 3, gain: 0.75 },
    random('clumps'),
  );
}
