import type { Lattice } from '../../../repeat/index.ts';
import type { Part } from '../../words/look.ts';

/** Where one copy of the lattice lies: mm from the first, and its column and row. */
export interface Copy {
  readonly x: number;
  readonly y: number;
  readonly column: number;
  readonly row: number;
}

/** All copies of a part that touch what is seen. */
export function copiesIn(seen: Part, part: Part, lattice: Lattice): Copy[] {
  const { ax, ay, bx, by } = lattice;
  const copies: Copy[] = [];
  const across = (row: number) => reach(seen.left - row * bx, seen.width, part.left, part.width, ax);
  const down = (column: number) => reach(seen.top - column * ay, seen.height, part.top, part.height, by);
  const add = (column: number, row: number) =>
    copies.push({ x: column * ax + row * bx, y: column * ay + row * by, column, row });
  if (bx === 0) {
    for (const column of across(0)) for (const row of down(column)) add(column, row);
  } else {
    for (const row of down(0)) for (const column of across(row)) add(column, row);
  }
  return copies;
}

/** The whole multiples of `step` by which a stretch, pushed along, touches what is seen. */
function reach(seenAt: number, seenSize: number, at: number, size: number, step: number): number[] {
  const first = Math.floor((seenAt - at - size) / step) + 1;
  const last = Math.ceil((seenAt + seenSize - at) / step) - 1;
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}
