import {
  type Box,
  type CellLattice,
  cellLattice,
  type FractalNoise,
  fractalNoise,
  hashUnit,
  type RandomStream,
  wrapCell,
} from 'tenter';
import type { WornValues } from './parameters.ts';

/** Paint that has cracked: a cell per flake, each around a point of its own. Plain data. */
export interface Flakes {
  readonly cells: CellLattice;
  readonly seed: number;
  /** mm, about the side of a cell. */
  readonly size: number;
  /** 0..1 */
  readonly cracks: number;
  /** How far walls are bent, in cells. */
  readonly bendS: FractalNoise;
  readonly bendT: FractalNoise;
}

export function flakesOf(box: Box, { cracks, flakes }: WornValues, random: RandomStream): Flakes | undefined {
  const shape = { along: flakes, across: flakes };
  const bend = () => fractalNoise(box.lattice, shape, { octaves: 1, gain: 1, deviation: 0.1 }, random);
  return {
    cells: cellLattice(box.lattice, shape),
    seed: random.bits() | 0,
    size: flakes,
    cracks: cracks / 100,
    bendS: bend(),
    bendT: bend(),
  };
}

/** The wall nearest to a place, and the flakes on both sides of it. */
export interface FlakePlace {
  /** mm */
  distance: number;
  /** How firmly each of the two holds, 0..1. */
  own: number;
  other: number;
  /** The numbers of both. */
  first: number;
  second: number;
}

/** How firmly the wall between two flakes holds, 0..1: around a loose flake all of them give way. */
export function wallHolds({ seed }: Flakes, { own, other, first, second }: FlakePlace): number {
  const byChance = hashUnit(seed ^ 0x2545f491, Math.min(first, second), Math.max(first, second));
  return 0.65 * Math.min(own, other) + 0.35 * byChance;
}

/** Cells around a place, with its own, column by column; and of one column. */
const AROUND = 9;
const DOWN = 3;
/** How far a point may stand from the middle of its cell, in cells. */
const JITTER = 0.43;

/** Finds flakes; it keeps the points around the last place that was asked for, for the next is near. */
export class FlakeFinder {
  private readonly flakes: Flakes;
  private column = Number.NaN;
  private row = Number.NaN;
  private readonly ps = new Float64Array(AROUND);
  private readonly pt = new Float64Array(AROUND);
  private readonly ids = new Int32Array(AROUND);
  private readonly holds = new Float64Array(AROUND);

  constructor(flakes: Flakes) {
    this.flakes = flakes;
  }

  /**
   * @param s In cells, as is `t`.
   * @param found Receives the answer, so that a loop over pixels makes no garbage.
   */
  find(s: number, t: number, found: FlakePlace): void {
    const i = Math.floor(s);
    const j = Math.floor(t);
    if (i !== this.column || j !== this.row) this.look(i, j);
    const { ps, pt } = this;
    let first = 0;
    let second = 0;
    let near = Number.POSITIVE_INFINITY;
    let next = Number.POSITIVE_INFINITY;
    for (let k = 0; k < AROUND; k++) {
      const ds = ps[k] - s;
      const dt = pt[k] - t;
      const square = ds * ds + dt * dt;
      if (square >= next) continue;
      if (square < near) {
        next = near;
        second = first;
        near = square;
        first = k;
      } else {
        next = square;
        second = k;
      }
    }
    const acrossS = ps[first] - ps[second];
    const acrossT = pt[first] - pt[second];
    const apart = Math.sqrt(acrossS * acrossS + acrossT * acrossT);
    // The way to the line half-way between the two points.
    found.distance = ((next - near) / (2 * Math.max(1e-6, apart))) * this.flakes.size;
    found.own = this.holds[first];
    found.other = this.holds[second];
    found.first = this.ids[first];
    found.second = this.ids[second];
  }

  /** The cells around one; two thirds of them are known where the last one was its neighbour at the left. */
  private look(column: number, row: number): void {
    const isNext = row === this.row && column === this.column + 1;
    this.column = column;
    this.row = row;
    if (isNext) {
      for (const list of [this.ps, this.pt, this.ids, this.holds]) list.copyWithin(0, DOWN);
    }
    for (let k = isNext ? 2 * DOWN : 0; k < AROUND; k++) this.lookAt(k);
  }

  private lookAt(k: number): void {
    const { cells, seed } = this.flakes;
    const column = this.column + Math.floor(k / DOWN) - 1;
    const row = this.row + (k % DOWN) - 1;
    const id = wrapCell(cells, column, row);
    this.ids[k] = id;
    this.holds[k] = hashUnit(seed, id, 1);
    this.ps[k] = column + 0.5 + 2 * JITTER * (hashUnit(seed, id, 2) - 0.5);
    this.pt[k] = row + 0.5 + 2 * JITTER * (hashUnit(seed, id, 3) - 0.5);
  }
}
