import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  homeParts,
  type TextureLayer,
} from 'tenter';
import type { WetModel } from './model.ts';
import { edgeLoad, loadOf } from './profile.ts';

type Planes = 'load' | 'shift' | 'tint';

/** Rows of numbers that a band works in. */
interface Rows {
  readonly load: Float64Array;
  readonly lobes: Float64Array;
  readonly feathers: Float64Array;
  readonly tooth: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly c: Float64Array;
}

interface Brush {
  readonly model: WetModel;
  readonly lobes: FractalNoise;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  readonly rows: Rows;
  readonly step: number;
}

/** Pixels after which rows start afresh, wherever a band begins: so every copy of a pixel has the same bits. */
const RUN = 256;

/** Where in the planes a run of pixels goes. */
interface Run {
  /** mm of the first pixel that is worked out. */
  readonly x0: number;
  readonly y: number;
  /** The first pixel wanted, counted from there, and how many in all are worked out. */
  readonly skip: number;
  readonly count: number;
  /** Where the first wanted pixel stands in the band. */
  readonly at: number;
}

/** Fills the planes of a band: each pixel looks up smooth fields and draws the edges itself, so none shows its cells. */
export function paintWet(model: WetModel, band: Band, layer: TextureLayer<Planes>): void {
  const brush = openBrush(model, band.mmPerPixelX, band.mmPerPixelY, RUN);
  for (const part of homeParts(band, model.lattice)) {
    const whole = Math.floor(part.x);
    const first = Math.floor(whole / RUN) * RUN;
    for (let j = 0; j < part.height; j++) {
      const y = (part.y + j + 0.5) * band.mmPerPixelY;
      for (let pixel = first; pixel < whole + part.width; pixel += RUN) {
        const skip = Math.max(0, whole - pixel);
        paintRun(brush, layer, {
          x0: (pixel + (part.x - whole) + 0.5) * band.mmPerPixelX,
          y,
          skip,
          count: Math.min(RUN, whole + part.width - pixel),
          at: part.at + j * band.width + pixel + skip - whole,
        });
      }
    }
  }
}

function paintRun(brush: Brush, layer: TextureLayer<Planes>, run: Run): void {
  noiseRows(brush, run.x0, run.y, run.count);
  // A layer holds only the planes that were asked for.
  if (layer.load) loadRow(brush, run, layer.load);
  if (layer.shift) shiftRow(brush, run, layer.shift);
  if (layer.tint && brush.model.second) tintRow(brush, brush.model.second, run, layer.tint);
}

export function openBrush(model: WetModel, mmPerPixelX: number, mmPerPixelY: number, count: number): Brush {
  const fine = (noise: FractalNoise) => fractalOnPixels(noise, mmPerPixelX, mmPerPixelY);
  const row = () => new Float64Array(count);
  return {
    model,
    lobes: fine(model.lobes),
    feathers: fine(model.feathers),
    tooth: fine(model.tooth),
    rows: { load: row(), lobes: row(), feathers: row(), tooth: row(), a: row(), b: row(), c: row() },
    step: mmPerPixelX,
  };
}

/** The noises that several planes share. */
export function noiseRows(
  { lobes, feathers, tooth, rows, step }: Brush,
  x0: number,
  y: number,
  count: number,
): void {
  for (const [noise, row] of [
    [lobes, rows.lobes],
    [feathers, rows.feathers],
    [tooth, rows.tooth],
  ] as const) {
    row.fill(0, 0, count);
    addFractalRow(noise, x0, step, y, 1, row, count);
  }
}

export function loadRow(brush: Brush, { x0, y, skip, count, at }: Run, load: Float32Array): void {
  const { model, rows, step } = brush;
  const sum = rows.load.fill(0, 0, count);
  addBicubicRow(model.base, x0, step, y, 1, sum, count);
  for (const edge of model.edges) {
    const strength = rows.b.fill(0, 0, count);
    addBilinearRow(edge.strength, x0, step, y, 1, strength, count);
    if (!isAny(strength, count)) continue;
    const level = rows.a.fill(0, 0, count);
    const sharpness = rows.c.fill(0, 0, count);
    addBicubicRow(edge.level, x0, step, y, 1, level, count);
    addBilinearRow(edge.sharpness, x0, step, y, 1, sharpness, count);
    addEdge(rows, sum, level, strength, sharpness, edge.crinkle, count);
  }
  const settled = rows.a.fill(0, 0, count);
  addBilinearRow(model.settled, x0, step, y, 1, settled, count);
  const { tooth } = rows;
  const { level } = model;
  for (let k = skip, to = at; k < count; k++, to++) load[to] = level * loadOf(sum[k] + settled[k] * tooth[k]);
}

function isAny(row: Float64Array, count: number): boolean {
  for (let k = 0; k < count; k++) if (row[k] !== 0) return true;
  return false;
}

/** Lobes swell outward and meet in creases: the outline of a back-run. */
function addEdge(
  { lobes, feathers }: Rows,
  sum: Float64Array,
  level: Float64Array,
  strength: Float64Array,
  sharpness: Float64Array,
  crinkle: number,
  count: number,
): void {
  for (let k = 0; k < count; k++) {
    const u = level[k] + crinkle * (Math.abs(lobes[k]) - 0.7 + 0.28 * feathers[k]);
    sum[k] += strength[k] * edgeLoad(u * sharpness[k]);
  }
}

function shiftRow({ model, rows, step }: Brush, { x0, y, skip, count, at }: Run, shift: Float32Array): void {
  const dx = rows.a.fill(0, 0, count);
  const dy = rows.b.fill(0, 0, count);
  addBilinearRow(model.moveX, x0, step, y, 1, dx, count);
  addBilinearRow(model.moveY, x0, step, y, 1, dy, count);
  const { lobes, feathers } = rows;
  const { fringe } = model;
  for (let k = skip, to = 2 * at; k < count; k++, to += 2) {
    const rough = 1 + 0.45 * lobes[k];
    shift[to] = dx[k] * rough + fringe * feathers[k];
    shift[to + 1] = dy[k] * rough + fringe * (0.5 * lobes[k] - 0.7 * feathers[k]);
  }
}

function tintRow(
  { model, rows, step }: Brush,
  { amount, colour }: NonNullable<WetModel['second']>,
  { x0, y, skip, count, at }: Run,
  tint: Float32Array,
): void {
  const sum = rows.a.fill(0, 0, count);
  const settled = rows.b.fill(0, 0, count);
  addBicubicRow(amount, x0, step, y, 1, sum, count);
  addBilinearRow(model.settled, x0, step, y, 1, settled, count);
  const { tooth } = rows;
  const [r, g, b] = colour.map((channel) => Math.log(Math.max(1 / 255, channel)));
  for (let k = skip, to = 4 * at; k < count; k++, to += 4) {
    const there = Math.max(0, sum[k]) * (1 + settled[k] * tooth[k]);
    tint[to] = Math.exp(r * there);
    tint[to + 1] = Math.exp(g * there);
    tint[to + 2] = Math.exp(b * there);
    tint[to + 3] = 1;
  }
}
