import { modulo } from '../repeat/lattice.ts';
import type { OpenDots, ScatteredDots } from './dot-field.ts';

/** Reads scattered dots by cells: see `openDots`. */
export function openScatteredDots(dots: ScatteredDots): OpenDots {
  const { lattice, isBrick, across, down, field, thresholds } = dots;
  const [width, height, drop] = isBrick
    ? [lattice.by, lattice.ax, lattice.bx]
    : [lattice.ax, lattice.by, lattice.ay];
  const columns = cellsOf(width, across);
  const rows = cellsOf(height, down);
  // Of each pixel along the first axis: its column in the field, and how far its copy stands lower.
  const column = columns.map((cell) => cell % field.width);
  const lower = columns.map((cell) => modulo(-Math.floor(cell / field.width) * field.shear, field.height));
  const row = rows.map((cell) => cell % field.height);
  const at = (first: number, second: number) =>
    thresholds[((row[second] + lower[first]) % field.height) * field.width + column[first]];

  function alongFirst(x: number, y: number, count: number, into: Uint16Array): void {
    let copy = Math.floor(x / width);
    let first = x - copy * width;
    let second = modulo(y - copy * drop, height);
    for (let k = 0; k < count; k++) {
      into[k] = at(first, second);
      if (++first < width) continue;
      first = 0;
      copy++;
      second = modulo(y - copy * drop, height);
    }
  }

  function alongSecond(x: number, y: number, count: number, into: Uint16Array): void {
    const copy = Math.floor(y / width);
    const first = y - copy * width;
    let second = modulo(x - copy * drop, height);
    for (let k = 0; k < count; k++) {
      into[k] = at(first, second);
      if (++second === height) second = 0;
    }
  }

  return { row: isBrick ? alongSecond : alongFirst };
}

/** Of each of `pixels` the cell that it lies in, `cells` of them as even as they can be. */
export function cellsOf(pixels: number, cells: number): Int32Array {
  return Int32Array.from({ length: pixels }, (_, pixel) => Math.floor((pixel * cells) / pixels));
}
