import type { Lattice } from '../repeat/lattice.ts';

/**
 * A lattice of cells that closes over a repeat: the plane is cut into parallelograms, and moving by
 * either vector of the repeat moves by a whole number of cells. Plain data.
 *
 * A point (x, y) in mm lies at s = sx*x + sy*y, t = tx*x + ty*y; its cell is (floor s, floor t).
 * Cells (i, j), (i + across, j + slip) and (i, j + down) are one and the same.
 */
export interface CellLattice {
  readonly sx: number;
  readonly sy: number;
  readonly tx: number;
  readonly ty: number;
  readonly across: number;
  readonly slip: number;
  readonly down: number;
}

export interface CellShape {
  /** Wanted size of a cell along `direction`, mm. */
  readonly along: number;
  /** Wanted size across it, mm. */
  readonly across: number;
  /** Degrees from the x axis, clockwise on the page (y runs down); default 0. */
  readonly direction?: number;
}

/**
 * Cells of about the wanted shape that close over the lattice.
 *
 * Written in cells, the lattice vectors must be whole: they are rounded, and the cell edges follow
 * from them. So any sheared lattice closes, at the cost of a small change of the cells' size and lean.
 *
 * @param lattice The repeat's vectors in mm.
 */
export function cellLattice(lattice: Lattice, shape: CellShape): CellLattice {
  const angle = ((shape.direction ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const along = (x: number, y: number) => (x * c + y * s) / shape.along;
  const across = (x: number, y: number) => (-x * s + y * c) / shape.across;
  const whole = roundToIndependent(
    [along(lattice.ax, lattice.ay), across(lattice.ax, lattice.ay)],
    [along(lattice.bx, lattice.by), across(lattice.bx, lattice.by)],
  );
  return { ...cellTransform(lattice, whole), ...hermite(whole) };
}

/** The copy of cell (i, j) in 0 <= i < across, 0 <= j < down, packed as i + j * across. */
export function wrapCell(cells: CellLattice, i: number, j: number): number {
  const { across, slip, down } = cells;
  const column = Math.floor(i / across);
  const row = j - column * slip;
  return i - column * across + (row - Math.floor(row / down) * down) * across;
}

/** How many different cells there are. */
export function cellCount(cells: CellLattice): number {
  return cells.across * cells.down;
}

/** Rows are the lattice's two vectors in whole cells. */
type WholeVectors = readonly [readonly [number, number], readonly [number, number]];

/** Rounds; where that makes the two vectors dependent, the longer share of each is kept at one cell. */
function roundToIndependent(a: [number, number], b: [number, number]): WholeVectors {
  const round = ([p, q]: [number, number]) => [Math.round(p), Math.round(q)] as const;
  const [ra, rb] = [round(a), round(b)];
  if (ra[0] * rb[1] - ra[1] * rb[0] !== 0) return [ra, rb];
  const straight = Math.abs(a[0] * b[1]) >= Math.abs(a[1] * b[0]);
  const nonZero = (value: number) => Math.round(value) || (value < 0 ? -1 : 1);
  return straight
    ? [
        [nonZero(a[0]), 0],
        [0, nonZero(b[1])],
      ]
    : [
        [0, nonZero(a[1])],
        [nonZero(b[0]), 0],
      ];
}

/** Solves (s, t)(A) = whole[0], (s, t)(B) = whole[1] for the linear map from mm to cells. */
function cellTransform({ ax, ay, bx, by }: Lattice, [[pa, qa], [pb, qb]]: WholeVectors) {
  const area = ax * by - ay * bx;
  // A share this small is rounding; an exact zero lets rows be drawn the fast way.
  const settle = (value: number) => (Math.abs(value) < 1e-9 * Math.sqrt(Math.abs(area)) ? 0 : value / area);
  return {
    sx: settle(pa * by - pb * ay),
    sy: settle(pb * ax - pa * bx),
    tx: settle(qa * by - qb * ay),
    ty: settle(qb * ax - qa * bx),
  };
}

/** The Hermite normal form of the lattice in cells: a basis (across, slip), (0, down). */
function hermite([a, b]: WholeVectors): Pick<CellLattice, 'across' | 'slip' | 'down'> {
  let [p, q] = [[...a], [...b]];
  while (q[0] !== 0) {
    const times = Math.floor(p[0] / q[0]);
    [p, q] = [q, [p[0] - times * q[0], p[1] - times * q[1]]];
  }
  const sign = p[0] < 0 ? -1 : 1;
  const down = Math.abs(q[1]);
  const slip = p[1] * sign;
  return { across: p[0] * sign, slip: slip - Math.floor(slip / down) * down, down };
}
