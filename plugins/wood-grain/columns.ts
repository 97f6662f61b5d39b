import { type Box, type Lattice, modulo } from 'tenter';

/**
 * Upright columns (boards, leaves, strips, hearts) of equal width that close over a repeat.
 *
 * In the grain's own frame u runs across the grain and v along it. Column c lies at
 * `c * width <= u - start < (c + 1) * width`. A translation of the repeat carries a column onto
 * another one, moved along by `shift`; columns that are carried onto one another share an id, and
 * each closes on itself after `period` mm along the grain.
 */
export interface Columns {
  /** In one repeat, across. */
  readonly count: number;
  /** How many of them are different ones. */
  readonly distinct: number;
  /** mm */
  readonly width: number;
  /** mm along the grain after which a column meets itself. */
  readonly period: number;
  /** mm from u = 0 to the left edge of column 0. */
  readonly start: number;
  /** The repeat's own vectors, grain frame, mm. */
  readonly lattice: Lattice;
  /** The brick's denominator in the grain's frame, and the inverse of its numerator modulo it. */
  readonly denominator: number;
  readonly inverse: number;
}

/** The lattice of the box in the grain's frame: u across the grain, v along it. */
export function grainLattice({ lattice }: Box, isAcross: boolean): Lattice {
  const { ax, ay, bx, by } = lattice;
  return isAcross ? { ax: by, ay: bx, bx: ay, by: ax } : { ax, ay, bx, by };
}

/**
 * Columns of about the wanted width.
 *
 * @param wanted mm.
 * @param even   True where neighbours come in pairs (book-matched leaves, heart and comb strips).
 * @param start  Where column 0 begins, as a share of a column's width.
 */
export function columnsOver(
  box: Box,
  isAcross: boolean,
  wanted: number,
  even: boolean,
  start: number,
): Columns {
  const lattice = grainLattice(box, isAcross);
  const { numerator, denominator } = brickOf(box, isAcross);
  const step = denominator * (even ? 2 : 1);
  const count = step * Math.max(1, Math.round(lattice.ax / wanted / step));
  const width = lattice.ax / count;
  return {
    count,
    distinct: count / denominator,
    width,
    period: denominator * lattice.by,
    start: start * width,
    lattice,
    denominator,
    inverse: inverseModulo(numerator, denominator),
  };
}

/**
 * Which of the different columns column c is, and how far along the grain it is moved, mm.
 *
 * Under a drop, column c + count is column c moved by the drop. Under a brick of p/q, column
 * c + count * p/q is column c moved by one repeat, so column c + (count/q) * m is c moved by
 * t repeats with p * t = m modulo q.
 */
export function resolveColumn(columns: Columns, c: number): { readonly id: number; readonly shift: number } {
  const { distinct, denominator, inverse, lattice } = columns;
  const turns = Math.floor(c / distinct);
  const id = c - turns * distinct;
  if (denominator === 1) return { id, shift: turns * lattice.ay };
  return { id, shift: modulo(turns * inverse, denominator) * lattice.by };
}

function brickOf({ layout }: Box, isAcross: boolean): { numerator: number; denominator: number } {
  const isBrick = layout.kind === (isAcross ? 'drop' : 'brick');
  return isBrick ? layout : { numerator: 0, denominator: 1 };
}

function inverseModulo(value: number, size: number): number {
  for (let t = 0; t < size; t++) if ((value * t) % size === 1 % size) return t;
  return 0;
}
