import type { Lattice } from '../repeat/lattice.ts';
import { LARGEST_DENOMINATOR } from '../repeat/layout.ts';
import { requirePositive } from './require.ts';

/**
 * A lattice of cells that closes over a repeat: the plane is cut into parallelograms, and moving by
 * either vector of the repeat moves by a whole number of cells. Plain data.
 *
 * A point (x, y) in mm lies at s = sx*x + sy*y, t = tx*x + ty*y; its cell is (floor s, floor t).
 * Cells (i, j), (i + across, j + slip) and (i, j + down) are one and the same.
 */
export interface CellLattice {
  /** How much s grows per mm to the right. */
  readonly sx: number;
  /** How much s grows per mm down the page. */
  readonly sy: number;
  /** How much t grows per mm to the right. */
  readonly tx: number;
  /** How much t grows per mm down the page. */
  readonly ty: number;
  /** After so many cells along s the cells repeat, `slip` further along t. */
  readonly across: number;
  /** How many cells along t a repeat along s is moved by. */
  readonly slip: number;
  /** After so many cells along t the cells repeat. */
  readonly down: number;
}

/** What cells are wanted. */
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
 * Cells along the axes stay along the axes, except where that would change their size by a seventh or more.
 *
 * @param lattice The repeat's vectors in mm.
 * @throws Fault (effect) where a side of the shape is not above 0.
 */
export function cellLattice(lattice: Lattice, shape: CellShape): CellLattice {
  requirePositive(shape.along, 'the length of a cell');
  requirePositive(shape.across, 'the width of a cell');
  const whole = wholeVectors(lattice, shape);
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

/** Rows are the lattice's two vectors in cells. */
type Vectors = readonly [readonly [number, number], readonly [number, number]];

function wholeVectors({ ax, ay, bx, by }: Lattice, { along, across, direction = 0 }: CellShape): Vectors {
  const angle = (direction * Math.PI) / 180;
  const [c, s] = [Math.cos(angle) / along, Math.sin(angle) / along];
  const [d, e] = [-Math.sin(angle) / across, Math.cos(angle) / across];
  const wanted: Vectors = [
    [ax * c + ay * s, ax * d + ay * e],
    [bx * c + by * s, bx * d + by * e],
  ];
  const level = direction % 90 === 0 ? levelVectors(wanted) : undefined;
  return level ?? nearestVectors(wanted);
}

/** The largest change of a cell's size, as a logarithm, that is worth cells along the axes. */
const LEVEL_TOLERANCE = 0.15;

/** Both vectors' shares of an axis rounded in their own ratio p/q, so that no cell leans; else nothing. */
function levelVectors([[pa, qa], [pb, qb]]: Vectors): Vectors | undefined {
  const p = roundInRatio(pa, pb);
  const q = roundInRatio(qa, qb);
  if (!p || !q || p[0] * q[1] - q[0] * p[1] === 0) return undefined;
  return [
    [p[0], q[0]],
    [p[1], q[1]],
  ];
}

function roundInRatio(a: number, b: number): [number, number] | undefined {
  if (Math.abs(a) > Math.abs(b)) return roundInRatio(b, a)?.reverse() as [number, number] | undefined;
  for (let denominator = 1; denominator <= LARGEST_DENOMINATOR; denominator++) {
    const numerator = (a / b) * denominator;
    if (Math.abs(numerator - Math.round(numerator)) > 1e-9 * denominator) continue;
    const times = Math.round(b / denominator) || Math.sign(b);
    const change = Math.abs(Math.log((times * denominator) / b));
    return change < LEVEL_TOLERANCE ? [Math.round(numerator) * times, denominator * times] : undefined;
  }
  return undefined;
}

const NUDGES = [-1, 0, 1];

/** Of the whole vectors around, those that change the cells' shape least. */
function nearestVectors(wanted: Vectors): Vectors {
  const [[pa, qa], [pb, qb]] = wanted;
  let best: Vectors | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const i of NUDGES)
    for (const j of NUDGES)
      for (const k of NUDGES)
        for (const l of NUDGES) {
          const vectors: Vectors = [
            [Math.round(pa) + i, Math.round(qa) + j],
            [Math.round(pb) + k, Math.round(qb) + l],
          ];
          const change = distortion(wanted, vectors) + distortion(vectors, wanted);
          if (change < least) [best, least] = [vectors, change];
        }
  return best as Vectors;
}

/** How far the map that takes `from` to `to` is from leaving all as it is: the squares of what its matrix is off. */
function distortion([[pa, qa], [pb, qb]]: Vectors, [[ra, sa], [rb, sb]]: Vectors): number {
  const area = pa * qb - qa * pb;
  if (area === 0) return Number.POSITIVE_INFINITY;
  const along = (qb * ra - qa * rb) / area - 1;
  const shear = (qb * sa - qa * sb) / area;
  const lean = (pa * rb - pb * ra) / area;
  const across = (pa * sb - pb * sa) / area - 1;
  return along * along + shear * shear + lean * lean + across * across;
}

/** Solves (s, t)(A) = whole[0], (s, t)(B) = whole[1] for the linear map from mm to cells. */
function cellTransform({ ax, ay, bx, by }: Lattice, [[pa, qa], [pb, qb]]: Vectors) {
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
function hermite([a, b]: Vectors): Pick<CellLattice, 'across' | 'slip' | 'down'> {
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
