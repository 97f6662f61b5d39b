import type { Grid } from '../../repeat/grid.ts';
import { reflectionAt } from '../../repeat/unfold.ts';
import type { DabLine } from './dab-line.ts';

/**
 * Finds a line of dabs of the plane as every copy of the tile sees it that it comes within `reach` of: moved, and
 * reflected where the copy is, so that painting all of them onto the tile paints the line wherever the tile stands.
 *
 * @param reach mm
 */
export function asTilesSee(grid: Grid, line: DabLine, reach: number, see: (line: DabLine) => void): void {
  const { kind } = grid.repeat.layout;
  if (kind === 'brick') seeRows(grid, line, reach, see);
  else seeColumns(grid, line, reach, see);
}

function seeColumns(grid: Grid, line: DabLine, reach: number, see: (line: DabLine) => void): void {
  const { width, height, layout } = grid.repeat;
  const drop = layout.kind === 'drop' ? grid.box.lattice.ay : 0;
  const { first, last } = countsOf(line.x0, line.x1, reach, width);
  for (let column = first; column <= last; column++) {
    const left = column * width;
    const part = within(line.x0, line.x1, line.y0, line.y1, left - reach, left + width + reach);
    if (!part) continue;
    const top = column * drop;
    const rows = countsOf(part[0] - top, part[1] - top, reach, height);
    for (let row = rows.first; row <= rows.last; row++)
      see(asSeen(grid, line, column, row, left, top + row * height));
  }
}

function seeRows(grid: Grid, line: DabLine, reach: number, see: (line: DabLine) => void): void {
  const { width, height } = grid.repeat;
  const offset = grid.box.lattice.bx;
  const { first, last } = countsOf(line.y0, line.y1, reach, height);
  for (let row = first; row <= last; row++) {
    const top = row * height;
    const part = within(line.y0, line.y1, line.x0, line.x1, top - reach, top + height + reach);
    if (!part) continue;
    const left = row * offset;
    const columns = countsOf(part[0] - left, part[1] - left, reach, width);
    for (let column = columns.first; column <= columns.last; column++)
      see(asSeen(grid, line, column, row, left + column * width, top));
  }
}

/** Which copies of a side lie within `reach` of what goes from a to b. */
function countsOf(a: number, b: number, reach: number, side: number): { first: number; last: number } {
  return {
    first: Math.floor((Math.min(a, b) - reach) / side),
    last: Math.floor((Math.max(a, b) + reach) / side),
  };
}

/** From where to where a line goes the other way while it stays between two values of the one. */
function within(
  a0: number,
  a1: number,
  b0: number,
  b1: number,
  least: number,
  most: number,
): readonly [number, number] | undefined {
  if (a0 === a1) return a0 >= least && a0 <= most ? [b0, b1] : undefined;
  const [s, t] = [(least - a0) / (a1 - a0), (most - a0) / (a1 - a0)];
  const [from, to] = [Math.max(0, Math.min(s, t)), Math.min(1, Math.max(s, t))];
  return from <= to ? [b0 + from * (b1 - b0), b0 + to * (b1 - b0)] : undefined;
}

function asSeen(
  { repeat: { width, height, layout } }: Grid,
  line: DabLine,
  column: number,
  row: number,
  left: number,
  top: number,
): DabLine {
  const { flipX, flipY } = reflectionAt(layout, Math.abs(column % 2), Math.abs(row % 2));
  const seenX = (x: number) => (flipX ? width - (x - left) : x - left);
  const seenY = (y: number) => (flipY ? height - (y - top) : y - top);
  return {
    ...line,
    x0: seenX(line.x0),
    y0: seenY(line.y0),
    x1: seenX(line.x1),
    y1: seenY(line.y1),
  };
}
