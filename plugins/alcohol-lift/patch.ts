import { type DropMaps, lookUp, pullBack, pushOn, type Traveller } from './compose.ts';
import { feathered, fingered, rimWithin, spoke } from './finger.ts';
import { BEYOND, reachOfPatch } from './tables.ts';
import { ANGLES } from './turn.ts';

/**
 * Around each drop a grid of its own, as fine as the drop is small, that holds where each place lies
 * between the drop's centre and edge once the later drops are undone. Smooth values, from which edges
 * are drawn crisp at any density.
 */
export interface Patches {
  /** mm of the centre of the first cell. */
  readonly left: Float64Array;
  readonly top: Float64Array;
  /** mm from cell to cell. */
  readonly cell: Float64Array;
  readonly columns: Int32Array;
  readonly rows: Int32Array;
  /** Where the cells of a patch begin in `parts` and `rims`. */
  readonly first: Int32Array;
  /** Radius by radius of the opening, at most `BEYOND`. */
  readonly parts: Float32Array;
  /** How strong the rim is in this direction, 0..1. */
  readonly rims: Float32Array;
  /** Where the rows of a patch begin in `from` and `to`: columns outside hold nothing of the drop. */
  readonly firstRow: Int32Array;
  readonly from: Int16Array;
  readonly to: Int16Array;
}

/** Cells per radius of an opening, and the least and largest cell, mm. */
const CELLS_PER_RADIUS = 8;
const LEAST_CELL = 0.045;
const LARGEST_CELL = 0.4;
/** A drop that later ones drew out far gets coarser cells, not more of them. */
const MOST_CELLS = 30_000;

/** @param coarseness 1 for the finished picture; more for a sketch. */
export function layPatches(maps: DropMaps, coarseness: number, progress: (done: number) => void): Patches {
  const { drops, outlines } = maps;
  const count = drops.length;
  const patches = {
    left: new Float64Array(count),
    top: new Float64Array(count),
    cell: new Float64Array(count),
    columns: new Int32Array(count),
    rows: new Int32Array(count),
    first: new Int32Array(count),
    firstRow: new Int32Array(count),
  };
  let cells = 0;
  let rows = 0;
  for (let k = 0; k < count; k++) {
    const { left, top, right, bottom } = extentOf(maps, k);
    const wanted = drops[k].radius / CELLS_PER_RADIUS;
    let cell = Math.min(LARGEST_CELL, Math.max(LEAST_CELL, wanted)) * coarseness;
    cell *= Math.max(1, Math.sqrt(((right - left) * (bottom - top)) / (cell * cell) / MOST_CELLS));
    // One cell of margin, for between cells the values beyond are asked for.
    patches.left[k] = left - cell;
    patches.top[k] = top - cell;
    patches.cell[k] = cell;
    patches.columns[k] = Math.ceil((right - left) / cell) + 3;
    patches.rows[k] = Math.ceil((bottom - top) / cell) + 3;
    patches.first[k] = cells;
    patches.firstRow[k] = rows;
    cells += patches.columns[k] * patches.rows[k];
    rows += patches.rows[k];
  }
  const filled: Patches = {
    ...patches,
    parts: new Float32Array(cells),
    rims: new Float32Array(cells),
    from: new Int16Array(rows),
    to: new Int16Array(rows),
  };
  for (let k = 0; k < count; k++) {
    fillPatch(maps, filled, k, outlines.widest[k]);
    progress(filled.first[k] / cells);
  }
  return filled;
}

/** Where the reach of a drop lies once later drops have pushed it about: its edge is carried along. */
function extentOf(maps: DropMaps, k: number) {
  const { x, y } = maps.drops[k];
  const point: Traveller = { x, y };
  let [left, top, right, bottom] = [x, y, x, y];
  const steps = ANGLES / 4;
  for (let step = 0; step < steps; step++) {
    const angle = (2 * Math.PI * step) / steps;
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    const reach = lookUp(maps.outlines, k, dx, dy).radius * reachOfPatch(maps.drops[k].radius);
    point.x = x + reach * dx;
    point.y = y + reach * dy;
    pushOn(maps, point, k);
    left = Math.min(left, point.x);
    right = Math.max(right, point.x);
    top = Math.min(top, point.y);
    bottom = Math.max(bottom, point.y);
  }
  const margin = 0.03 * (right - left + bottom - top);
  return { left: left - margin, top: top - margin, right: right + margin, bottom: bottom + margin };
}

/** How far feathers reach where paint flowed back, in radii per finger. */
const FEATHER = 0.055;

function fillPatch(maps: DropMaps, patches: Patches, k: number, widest: number): void {
  const { drops, outlines } = maps;
  const { x: cx, y: cy, radius, fingers } = drops[k];
  const reach = reachOfPatch(radius);
  const cell = patches.cell[k];
  const columns = patches.columns[k];
  const rows = patches.rows[k];
  const point: Traveller = { x: 0, y: 0 };
  let at = patches.first[k];
  for (let j = 0; j < rows; j++) {
    let from = columns;
    let to = -1;
    for (let i = 0; i < columns; i++, at++) {
      point.x = patches.left[k] + i * cell;
      point.y = patches.top[k] + j * cell;
      pullBack(maps, point, k);
      const dx = point.x - cx;
      const dy = point.y - cy;
      const outline = lookUp(outlines, k, dx, dy);
      const distance = Math.hypot(dx, dy);
      const part =
        distance < 1.2 * reach * widest
          ? feathered(fingered(distance / outline.radius, fingers * outline.finger), FEATHER * outline.finger)
          : BEYOND;
      patches.parts[at] = Math.min(BEYOND, part);
      patches.rims[at] = spoke(rimWithin(outline.rim, part), part, outline.finger);
      if (part >= reach) continue;
      if (from > i) from = i;
      to = i;
    }
    patches.from[patches.firstRow[k] + j] = Math.max(0, from - 1);
    patches.to[patches.firstRow[k] + j] = Math.min(columns - 1, to + 1);
    if (to < 0) patches.to[patches.firstRow[k] + j] = -1;
  }
}
