import { gridOfPixels } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';

/** The sides of a tile. */
export type Edge = 'left' | 'right' | 'top' | 'bottom';

/** Whether a line runs down between two columns or across between two rows. */
export type Axis = 'column' | 'row';

/**
 * What lies on one side of a line: the pixels next to it, and on away from it. Where along the line a
 * place lies is counted from the tile's left or top on the `before` side of the line.
 */
export interface Side {
  /** Column (or row) of the pixels next to the line. */
  readonly first: number;
  /** The way from the line: 1 to higher columns (rows), -1 to lower. */
  readonly step: 1 | -1;
  /** Added, modulo the line's length, to the place along the line. */
  readonly shift: number;
  /** Whether this side runs along the line the other way: it is turned half round. */
  readonly reversed: boolean;
}

/** A line between two columns or two rows, and the pixels that meet there. */
export interface Line {
  readonly axis: Axis;
  readonly before: Side;
  readonly after: Side;
}

/** A line at which a tile meets a copy of itself. */
export interface Seam extends Line {
  /** The edge on the side `before`. */
  readonly edge: Edge;
  /** The edge on the side `after`. */
  readonly meets: Edge;
  /** How the copy beyond it stands: moved only, in a mirror, or turned half round. */
  readonly how: 'moved' | 'mirrored' | 'turned';
}

/**
 * The seams of a layout, each once.
 *
 * @throws Fault (usage) where a drop or brick offset misses whole pixels.
 */
export function seamsOf(layout: Layout, width: number, height: number): Seam[] {
  const { lattice } = gridOfPixels({ layout, width, height }, width, height);
  const { kind } = layout;
  const columns =
    kind === 'mirror-x' || kind === 'mirror-xy'
      ? mirrors('column', 'left', 'right', width)
      : kind === 'turn'
        ? turns(width)
        : [moved('column', 'right', 'left', width, kind === 'drop' ? -lattice.ay : 0)];
  const rows =
    kind === 'mirror-y' || kind === 'mirror-xy'
      ? mirrors('row', 'top', 'bottom', height)
      : [moved('row', 'bottom', 'top', height, kind === 'brick' ? -lattice.bx : 0)];
  return [...columns, ...rows];
}

/** The line inside the tile before column (or row) `position`. */
export function insideLine(axis: Axis, position: number): Line {
  return { axis, before: side(position - 1, -1), after: side(position, 1) };
}

function moved(axis: Axis, edge: Edge, meets: Edge, size: number, shift: number): Seam {
  return { axis, edge, meets, how: 'moved', before: side(size - 1, -1), after: side(0, 1, shift) };
}

function mirrors(axis: Axis, low: Edge, high: Edge, size: number): Seam[] {
  const lowSide = side(0, 1);
  const highSide = side(size - 1, -1);
  return [
    { axis, edge: low, meets: low, how: 'mirrored', before: lowSide, after: lowSide },
    { axis, edge: high, meets: high, how: 'mirrored', before: highSide, after: highSide },
  ];
}

function turns(width: number): Seam[] {
  const [low, high] = [side(0, 1), side(width - 1, -1)];
  return [
    {
      axis: 'column',
      edge: 'left',
      meets: 'left',
      how: 'turned',
      before: low,
      after: { ...low, reversed: true },
    },
    {
      axis: 'column',
      edge: 'right',
      meets: 'right',
      how: 'turned',
      before: high,
      after: { ...high, reversed: true },
    },
  ];
}

function side(first: number, step: 1 | -1, shift = 0): Side {
  return { first, step, shift, reversed: false };
}
