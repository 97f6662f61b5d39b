import { hashCell, type RandomStream, wrapCell } from 'tenter';
import type { PoreLayer, WoodModel } from './model.ts';
import { type NodeGrid, nodeAt, nodeBounds } from './nodes.ts';
import type { Detail, Piece } from './piece.ts';
import { uprightCells } from './sheet.ts';
import type { PoreHabit } from './species.ts';

export function poreLayer(detail: Detail, habit: PoreHabit, random: RandomStream): PoreLayer {
  return { ...uprightCells(detail, habit.pitch, habit.spacing), seed: random.bits() | 0, habit };
}

/**
 * The pores of one layer that cross the current row of a piece, one at most in each upright column of
 * places. Columns start their places at different heights, so that no row of ends lines up.
 */
export class PoreRow {
  private readonly until: Float64Array;
  private readonly middle: Float64Array;
  private readonly half: Float64Array;
  private readonly lean: Float64Array;
  private readonly dark: Float64Array;
  private readonly top: Float64Array;
  private readonly bottom: Float64Array;
  private readonly first: number;

  /**
   * @param across mm of the piece: the stretch of the rows that is to be drawn.
   * @param along  mm of the piece: the first and last row.
   */
  constructor(
    private readonly layer: PoreLayer,
    private readonly model: WoodModel,
    private readonly piece: Piece,
    across: readonly [number, number],
    along: readonly [number, number],
  ) {
    const reach = layer.cellV;
    const rows = [along[0] - reach, along[1] + reach] as const;
    const near = [across[0] - model.fibreReach, across[1] + model.fibreReach] as const;
    // Pores are pushed aside with the fibres.
    const { low, high } = nodeBounds(model.nodes.drift, piece.grid, near, rows);
    this.first = Math.floor((across[0] + piece.detailU + low) / layer.cellU) - 1;
    const count = Math.ceil((across[1] + piece.detailU + high) / layer.cellU) - this.first + 2;
    this.until = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
    this.middle = new Float64Array(count);
    this.half = new Float64Array(count);
    this.lean = new Float64Array(count);
    this.dark = new Float64Array(count);
    this.top = new Float64Array(count);
    this.bottom = new Float64Array(count);
  }

  /**
   * Adds to each pixel of a row the share of it that pores cover, times their strength.
   *
   * @param v       mm, the piece's own.
   * @param scale   Pixels per mm.
   * @param offset  mm from the box to the piece.
   * @param origin  Pixel of the box at index 0 of `row`.
   */
  add(
    v: number,
    scale: number,
    offset: number,
    strength: number,
    row: Float32Array,
    origin: number,
    count: number,
  ): void {
    const { until, middle, half, lean, dark, top, bottom } = this;
    const gain = strength * this.layer.habit.strength;
    for (let q = 0; q < until.length; q++) {
      if (v >= until[q]) this.renew(q, v);
      if (v < top[q] || v > bottom[q]) continue;
      // Ends taper: a vessel leaves the face at a slant.
      const along = Math.min(v - top[q], bottom[q] - v) / (bottom[q] - top[q]);
      const narrow = Math.min(1, 0.4 + 5 * along);
      const at = (middle[q] + lean[q] * (v - top[q]) + offset) * scale;
      const reach = half[q] * scale * narrow;
      cover(row, origin, count, at - reach, at + reach, gain * dark[q]);
    }
  }

  /** Finds the pore of column q at height v, and how far it is to the next place. */
  private renew(q: number, v: number): void {
    const { layer, piece, first } = this;
    const { cells, cellU, cellV, seed, habit } = layer;
    const column = first + q;
    const turns = Math.floor(column / cells.across);
    const stagger = hashCell(seed, column - turns * cells.across, -1) / 4294967296;
    const place = Math.floor((v + piece.detailV) / cellV + stagger);
    this.until[q] = (place + 1 - stagger) * cellV - piece.detailV;
    this.top[q] = Number.POSITIVE_INFINITY;
    const bits = hashCell(seed, wrapCell(cells, column, place), 7);
    const chance = (bits & 1023) / 1024;
    if (chance >= Math.max(habit.early, habit.late)) return;
    const more = hashCell(bits, 1, 2);
    const share = ((bits >>> 10) & 255) / 255;
    const length = cellV * (0.16 + 0.8 * share * share);
    const start = (place - stagger) * cellV - piece.detailV + (cellV - length) * ((bits >>> 18) / 16383);
    const u = (column + 0.5 + 0.55 * ((more & 255) / 255 - 0.5)) * cellU - piece.detailU;
    const { drift } = this.model.nodes;
    const upper = u - nodeAt(drift, piece.grid, u, start);
    const lower = u - nodeAt(drift, piece.grid, u, start + length);
    const phase = phaseAt(this.model, piece.grid, (upper + lower) / 2, start + length / 2);
    if (chance >= densityAt(habit, phase)) return;
    this.middle[q] = upper;
    this.lean[q] = (lower - upper) / length;
    this.half[q] = (habit.bore / 2) * (1 + habit.spread * (((more >>> 8) & 255) / 127.5 - 1));
    this.dark[q] = 0.45 + 0.55 * (((more >>> 16) & 255) / 255);
    this.top[q] = start;
    this.bottom[q] = start + length;
  }
}

/** Share of a ring passed at a point of a piece, 0..1. */
function phaseAt({ nodes, rings }: WoodModel, grid: NodeGrid, u: number, v: number): number {
  const k = Math.floor((nodeAt(nodes.radius, grid, u, v) - rings.from) * rings.perMm);
  return rings.phase[Math.max(0, Math.min(rings.phase.length - 1, k))];
}

/** The share of places taken at share t of a ring: dense in the band, thinning out behind it. */
export function densityAt({ early, late, band }: PoreHabit, t: number): number {
  const past = Math.max(0, Math.min(1, (t - band * 0.75) / (band * 0.5)));
  return early + (late - early) * past * past * (3 - 2 * past);
}

/**
 * Adds to each pixel the share of it between `from` and `to`, in pixels of the box.
 *
 * @param origin Pixel of the box at index 0 of `row`.
 */
export function cover(
  row: Float32Array,
  origin: number,
  count: number,
  from: number,
  to: number,
  gain: number,
): void {
  const first = Math.max(0, Math.floor(from - origin));
  const last = Math.min(count - 1, Math.floor(to - origin));
  for (let k = first; k <= last; k++) {
    row[k] += gain * (Math.min(to, origin + k + 1) - Math.max(from, origin + k));
  }
}
