import { type FieldShape, fieldShape } from '../field/periodic.ts';
import type { Box } from '../repeat/repeat.ts';
import type { Readable, ReadablePlane } from './layer.ts';

/**
 * The artwork as an effect that reads it (`reads: ['artwork']`) sees it: unfolded, before the first step, as four
 * fields over the box. It is made from the tile as it was read, whatever is rendered, so that a model made from it
 * serves every density. Frozen.
 *
 * Cells of about half a mm, as `fieldShape` rounds them to close over the box; larger in a box that would have more
 * than two million of them. Each is the mean of all pixels in it, colours weighed by their alpha. The arrays lie in
 * memory that all threads share: they may stand in a model, and are not to be written.
 */
export interface Artwork extends FieldShape {
  /** Linear light, 0..1, one number per cell; 0 where nothing is painted. */
  readonly red: Float32Array;
  /** Linear light, 0..1, one number per cell, as `red`. */
  readonly green: Float32Array;
  /** Linear light, 0..1, one number per cell, as `red`. */
  readonly blue: Float32Array;
  /** 0..1; colours are not multiplied by it. */
  readonly alpha: Float32Array;
}

/** The names of the four fields of an artwork. */
export const ARTWORK_CHANNELS = ['red', 'green', 'blue', 'alpha'] as const;

/** mm; two thirds of the finest line that is printed on cloth and meant to be seen. */
const CELL = 0.5;
/** 32 MB of four channels. */
const MOST_CELLS = 2 ** 21;

/** The cells that artwork over a box is read in. */
export function artworkShape(box: Box): FieldShape {
  const coarser = Math.sqrt((box.width * box.height) / (MOST_CELLS * CELL * CELL));
  return fieldShape(box, CELL * Math.max(1, coarser));
}

/** Bytes of the artwork over a box. */
export function artworkBytes(box: Box): number {
  const { width, height } = artworkShape(box);
  return 4 * ARTWORK_CHANNELS.length * width * height;
}

/** Artwork of these cells, all 0, in shared memory. */
export function blankArtwork(shape: FieldShape): Artwork {
  const channel = () => new Float32Array(new SharedArrayBuffer(4 * shape.width * shape.height));
  return Object.freeze({ ...shape, red: channel(), green: channel(), blue: channel(), alpha: channel() });
}

/** Artwork that is all of one colour: white, where nothing else is known. */
export function plainArtwork(box: Box, light: readonly [number, number, number] = [1, 1, 1]): Artwork {
  const made = blankArtwork(artworkShape(box));
  for (const [index, name] of ARTWORK_CHANNELS.entries()) made[name].fill(light[index] ?? 1);
  return made;
}

interface Reader {
  readonly reads?: readonly Readable[];
}

/** Whether it wants to see the artwork. */
export function readsArtwork({ reads }: Reader): boolean {
  return reads?.includes('artwork') ?? false;
}

/** What it wants to see of the steps before it. */
export function planesRead({ reads = [] }: Reader): ReadablePlane[] {
  return reads.filter((name) => name !== 'artwork');
}
