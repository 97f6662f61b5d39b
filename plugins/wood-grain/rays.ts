import { type CellLattice, cellLattice, hashCell, type RandomStream, wrapCell } from 'tenter';
import type { Detail } from './piece.ts';

/** mm round the stem from ray to ray. */
export const RAY_PITCH = 0.45;
/** mm along the grain from ray to ray. */
const RAY_SPACING = 26;

/**
 * The wide rays of oak. Each is an upright blade standing on the pith: thin round the stem, tall along
 * the grain, as long as the radius. The face cuts it: across on a plain face, where it shows as a fine
 * line, and nearly flat on a quartered one, where it shows as a ribbon. Plain data.
 */
export interface RayLayer {
  /** Cells of (round the stem, along the grain). */
  readonly cells: CellLattice;
  readonly cellV: number;
  /** mm across the face gained per column of cells and per mm along, on the way round the detail lattice. */
  readonly perColumn: number;
  readonly perMm: number;
  readonly seed: number;
}

export function rayLayer({ lattice, stepV, rayTurns }: Detail, random: RandomStream): RayLayer {
  const { ax, ay, bx, by } = lattice;
  const [turnsA, turnsB] = rayTurns;
  const down = Math.max(1, Math.round(by / RAY_SPACING / stepV)) * stepV;
  const cellV = by / down;
  const turned = { ax: turnsA * RAY_PITCH, ay, bx: turnsB * RAY_PITCH, by };
  const area = turnsA * by - turnsB * ay;
  return {
    cells: cellLattice(turned, { along: RAY_PITCH, across: cellV }),
    cellV,
    perColumn: (ax * by - bx * ay) / area,
    perMm: (turnsA * bx - turnsB * ax) / area,
    seed: random.bits() | 0,
  };
}

/** mm across the grain that a ray stays in the face before it dips out of it. */
export const RAY_STRETCH = 42;

/** Entries of the cache, and numbers in an entry. */
const ENTRIES = 1024;
const FIELDS = 12;

/** What an entry of `RayCache.values` holds, in this order from the index that `find` returns. */
export const RAY = {
  /** Where the ray stands in its cell, and half its greatest thickness, in shares of a cell round the stem. */
  middle: 0,
  thick: 1,
  /** Its middle along the grain, mm of the detail lattice, and 1 / half its height. */
  height: 2,
  perHeight: 3,
  /** Its middle across the grain and 1 / half its length, in stretches. */
  centre: 4,
  perLength: 5,
  strength: 6,
} as const;
const KEYS = { column: 7, stretch: 8, from: 9, until: 10 } as const;

/**
 * Stretches of rays as rows come to them. A stretch is a lens in the two directions of its blade; row
 * after row meets the same ones.
 */
export class RayCache {
  readonly values = new Float64Array(ENTRIES * FIELDS).fill(Number.NaN);

  constructor(readonly layer: RayLayer) {}

  /**
   * The stretch of a ray that a point of the face may show.
   *
   * @param column  Cell round the stem.
   * @param v       mm along the grain, of the detail lattice.
   * @param stretch Number of the stretch across the grain.
   * @returns Where it stands in `values`.
   */
  find(column: number, v: number, stretch: number): number {
    const { values } = this;
    const entry = (column & (ENTRIES - 1)) * FIELDS;
    const isKnown =
      values[entry + KEYS.column] === column &&
      values[entry + KEYS.stretch] === stretch &&
      v >= values[entry + KEYS.from] &&
      v < values[entry + KEYS.until];
    if (!isKnown) this.fetch(entry, column, v, stretch);
    return entry;
  }

  private fetch(entry: number, column: number, v: number, stretch: number): void {
    const { values, layer } = this;
    const { cells, cellV, seed } = layer;
    const turns = Math.floor(column / cells.across);
    const stagger = hashCell(seed, column - turns * cells.across, -1) / 4294967296;
    const place = Math.floor(v / cellV + stagger);
    const bits = hashCell(seed, wrapCell(cells, column, place), stretch);
    const more = hashCell(bits, 5, 1);
    const tall = 0.3 + 0.7 * ((bits & 255) / 255);
    const centre = tall / 2 + (1 - tall) * (((bits >>> 8) & 255) / 255);
    const size = (bits >>> 24) / 255;
    const thick = 0.07 + 0.36 * size * Math.sqrt(size);
    const long = 0.35 + 0.6 * ((more & 255) / 255);
    values[entry + RAY.height] = (place + centre - stagger) * cellV;
    values[entry + RAY.perHeight] = 2 / (tall * cellV);
    values[entry + RAY.thick] = thick;
    values[entry + RAY.middle] = thick + (1 - 2 * thick) * (((bits >>> 16) & 255) / 255);
    values[entry + RAY.centre] = long / 2 + (1 - long) * (((more >>> 8) & 255) / 255);
    values[entry + RAY.perLength] = 2 / long;
    values[entry + RAY.strength] = 0.45 + 0.55 * (((more >>> 16) & 255) / 255);
    values[entry + KEYS.column] = column;
    values[entry + KEYS.stretch] = stretch;
    values[entry + KEYS.from] = (place - stagger) * cellV;
    values[entry + KEYS.until] = (place + 1 - stagger) * cellV;
  }
}
