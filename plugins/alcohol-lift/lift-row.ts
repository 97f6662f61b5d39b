import type { SampleGrid } from './canvas.ts';
import { EVEN_RIM } from './finger.ts';
import type { LiftModel } from './model.ts';
import { ENTRIES_PER_RADIUS, LAST_ENTRY } from './tables.ts';

/** What painting drops along a row needs at hand. */
export interface DropPainter {
  readonly model: LiftModel;
  readonly grid: SampleGrid;
  /** Where the table of each drop begins. */
  readonly starts: Int32Array;
  /** Fraying along the run: standard deviation 1. */
  fray: Float32Array;
  /** Parts and rims of a patch along the row; kept from drop to drop. */
  line: Float32Array;
  rims: Float32Array;
}

/** Of ink as the paper takes it: standard deviation as a share. */
const UNEVEN = 0.16;

/** How much more stays along spokes than between, as a share. */
const STREAKS = 0.5;

/** Where rims meet, paint runs on over the sheet instead of heaping up higher than this. */
const HEAPED = 2.2;

/** How ink lies in an opening from its middle to its edge: where it fell, thin between, gathered at the edge. */
const INK_LIES = Float32Array.from({ length: LAST_ENTRY + 2 }, (_, entry) => {
  const part = Math.min(1.1, entry / ENTRIES_PER_RADIUS);
  return 0.3 + 0.55 * Math.exp(-((part / 0.38) ** 2)) + 0.75 * part ** 9;
});

/**
 * Turns the load along a run of samples of the box, 1 as laid, into what each drop in turn left of it, and
 * adds the ink that came with them.
 *
 * @param column Of the first sample in the box.
 * @param y      mm in the box.
 * @param at     Of the first sample in `load` and `ink`.
 */
export function addDrops(
  painter: DropPainter,
  column: number,
  y: number,
  at: number,
  count: number,
  load: Float32Array,
  ink: Float32Array | undefined,
): void {
  const { copies, box } = painter.model;
  const strip = Math.min(copies.strips - 1, Math.floor((y / box.height) * copies.strips));
  for (let copy = copies.starts[strip]; copy < copies.starts[strip + 1]; copy++) {
    addDrop(
      painter,
      copies.drop[copy],
      copies.awayX[copy],
      y - copies.awayY[copy],
      column,
      at,
      count,
      load,
      ink,
    );
  }
}

function addDrop(
  painter: DropPainter,
  k: number,
  awayX: number,
  y: number,
  column: number,
  at: number,
  count: number,
  load: Float32Array,
  ink: Float32Array | undefined,
): void {
  const { model, grid } = painter;
  const { patches, rims } = model;
  const cell = patches.cell[k];
  const t = (y - patches.top[k]) / cell;
  const upper = Math.floor(t);
  if (upper < 0 || upper + 1 >= patches.rows[k]) return;
  const firstRow = patches.firstRow[k] + upper;
  const from = Math.min(patches.from[firstRow], patches.from[firstRow + 1]);
  const to = Math.max(patches.to[firstRow], patches.to[firstRow + 1]);
  if (to <= from) return;
  const stride = grid.mmX / cell;
  const start = (0.5 * grid.mmX - awayX - patches.left[k]) / cell;
  // Samples whose place lies between the columns `from` and `to`.
  const first = Math.max(column, Math.ceil((from - start) / stride));
  const last = Math.min(column + count - 1, Math.ceil((to - start) / stride) - 1);
  if (last < first) return;
  blendRows(painter, k, upper, t - upper, from, to);
  const { line, rims: strengths, fray } = painter;
  const { values } = model.tables;
  const table = painter.starts[k];
  const stain = rims.stain[k];
  const frayed = rims.fray[k] * ENTRIES_PER_RADIUS;
  const dye = rims.ink[k];
  const grain = rims.grain[k];
  for (let sample = first; sample <= last; sample++) {
    const s = start + sample * stride;
    const left = s | 0;
    const u = s - left;
    const rough = fray[sample - column];
    const place = line[left] + u * (line[left + 1] - line[left]) + frayed * rough;
    if (place >= LAST_ENTRY) continue;
    const inside = Math.max(place, 0);
    const entry = inside | 0;
    const between = inside - entry;
    const j = table + 2 * entry;
    const weak = values[j] + between * (values[j + 2] - values[j]);
    const strong = values[j + 1] + between * (values[j + 3] - values[j + 1]);
    const rim = strengths[left] + u * (strengths[left + 1] - strengths[left]);
    // What stays is a stain, as uneven as the paper that took it; a second drop finds no less there.
    const bare = weak < 1 ? 1 - weak : 0;
    const before = load[at + sample - column];
    const depth = weak + rim * (strong - weak);
    const staying = Math.min(
      before,
      stain * Math.max(0.3, 1 + bare * (grain * rough + STREAKS * (rim - EVEN_RIM))),
    );
    load[at + sample - column] = Math.min(HEAPED, staying + (before - staying) * depth);
    if (!ink || bare === 0) continue;
    // The ink that came with a drop takes the place of what was there, and gathers toward the edge.
    const lies = dye * INK_LIES[entry] * (0.5 + rim) * Math.max(0.2, 1 + UNEVEN * rough);
    ink[at + sample - column] += bare * (lies - ink[at + sample - column]);
  }
}

/** Blends two rows of a patch into one, parts in table entries. */
function blendRows(
  painter: DropPainter,
  k: number,
  upper: number,
  v: number,
  from: number,
  to: number,
): void {
  const { patches } = painter.model;
  const columns = patches.columns[k];
  if (painter.line.length < columns) {
    painter.line = new Float32Array(2 * columns);
    painter.rims = new Float32Array(2 * columns);
  }
  const { line, rims } = painter;
  const { parts, rims: strengths } = patches;
  const above = patches.first[k] + upper * columns;
  const below = above + columns;
  const w0 = (1 - v) * ENTRIES_PER_RADIUS;
  const w1 = v * ENTRIES_PER_RADIUS;
  for (let i = from; i <= to; i++) {
    line[i] = w0 * parts[above + i] + w1 * parts[below + i];
    rims[i] = strengths[above + i] + v * (strengths[below + i] - strengths[above + i]);
  }
}
