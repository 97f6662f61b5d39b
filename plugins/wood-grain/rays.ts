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

/** A stretch of one ray: a lens in the two directions of its blade. */
export interface RayBlade {
  /** Where it stands in its cell, and half its greatest thickness, in shares of a cell round the stem. */
  middle: number;
  thick: number;
  /** Its middle along the grain, mm of the detail lattice, and 1 / half its height. */
  height: number;
  perHeight: number;
  /** Its middle and 1 / half its length across the grain, in stretches. */
  perLength: number;
  centre: number;
  strength: number;
}

/** mm across the grain that a ray stays in the face before it dips out of it. */
export const RAY_STRETCH = 42;

/**
 * The stretch of a ray that a point of the face may show.
 *
 * @param column  Cell round the stem.
 * @param v       mm along the grain, of the detail lattice.
 * @param stretch Number of the stretch across the grain.
 */
export function rayBlade(layer: RayLayer, column: number, v: number, stretch: number, out: RayBlade): void {
  const { cells, cellV, seed } = layer;
  const turns = Math.floor(column / cells.across);
  const stagger = hashCell(seed, column - turns * cells.across, -1) / 4294967296;
  const place = Math.floor(v / cellV + stagger);
  const bits = hashCell(seed, wrapCell(cells, column, place), stretch);
  const more = hashCell(bits, 5, 1);
  const tall = 0.3 + 0.7 * ((bits & 255) / 255);
  const centre = tall / 2 + (1 - tall) * (((bits >>> 8) & 255) / 255);
  out.height = (place + centre - stagger) * cellV;
  out.perHeight = 2 / (tall * cellV);
  const size = (bits >>> 24) / 255;
  out.thick = 0.07 + 0.36 * size * Math.sqrt(size);
  out.middle = out.thick + (1 - 2 * out.thick) * (((bits >>> 16) & 255) / 255);
  const long = 0.35 + 0.6 * ((more & 255) / 255);
  out.centre = long / 2 + (1 - long) * (((more >>> 8) & 255) / 255);
  out.perLength = 2 / long;
  out.strength = 0.45 + 0.55 * (((more >>> 16) & 255) / 255);
}
