import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type GrainRows,
  openGrain,
  type TextureLayer,
} from 'tenter';
import { type Run, runsOf, type SampleGrid, sampleGrid, samplesPerPixel } from './canvas.ts';
import { inkTable, layInk } from './ink.ts';
import { addDrops, type DropPainter } from './lift-row.ts';
import type { LiftModel } from './model.ts';
import { tableStart } from './tables.ts';

export type LiftLayer = TextureLayer<'load' | 'parting' | 'shift' | 'bleed' | 'tint'>;

/** One row of samples; what an effect does there. */
interface SampleRow {
  /** Load before any drop. */
  readonly wash: Float32Array;
  readonly load: Float32Array;
  /** How much more heavy pigment than stain. */
  readonly parted: Float32Array;
  readonly ink: Float32Array;
  readonly shiftX: Float32Array;
  readonly shiftY: Float32Array;
  readonly bleed: Float32Array;
}

/** Fills the planes of a band; a pixel wider than a sample is the mean of its samples. */
export function paintLift(model: LiftModel, band: Band, layer: LiftLayer): void {
  const samples = samplesPerPixel(band);
  // A layer holds only the planes that were asked for.
  const moved = layer.shift || layer.bleed ? model.moved : undefined;
  const table = layer.tint && model.ink ? inkTable(model.ink) : undefined;
  const parted = layer.parting ? model.parted : undefined;
  const painter = openPainter({ ...model, moved, parted, ink: table && model.ink }, band, samples);
  const count = band.width * samples;
  const row = openRow(count);
  const mean = samples === 1 ? row : openRow(band.width);
  for (let y = 0; y < band.height; y++) {
    if (samples > 1) for (const values of Object.values(mean)) values.fill(0);
    for (let k = 0; k < samples; k++) {
      paintRow(painter, band.x * samples, (band.y + y) * samples + k, count, row);
      if (samples > 1) addMeans(row, samples, mean);
    }
    layer.load?.set(mean.load, y * band.width);
    if (parted) partHues(parted.hues, mean.parted, layer.parting, 3 * y * band.width);
    if (table) layInk(table, mean.ink, layer.tint, y * band.width);
    if (moved && layer.shift) interleave(mean.shiftX, mean.shiftY, layer.shift, 2 * y * band.width);
    if (moved) layer.bleed?.set(mean.bleed, y * band.width);
  }
}

interface Painter {
  readonly model: LiftModel;
  readonly grid: SampleGrid;
  readonly fray: FractalNoise;
  readonly grain: GrainRows;
  readonly drops: DropPainter;
  readonly scratch: Scratch;
}

/** Rows of one chunk. */
interface Scratch {
  readonly fray: Float32Array;
  readonly settling: Float32Array;
  readonly load: Float32Array;
  readonly shiftX: Float32Array;
  readonly shiftY: Float32Array;
  readonly bleed: Float32Array;
  readonly heavy: Float32Array;
}

function openPainter(model: LiftModel, band: Band, samples: number): Painter {
  const grid = sampleGrid(model.box, band, samples);
  const { rims, tables } = model;
  const row = () => new Float32Array(CHUNK);
  return {
    model,
    grid,
    fray: fractalOnPixels(model.paper.fray, grid.mmX, grid.mmY),
    grain: openGrain(model.paper.grain, grid.mmX, grid.mmY, CHUNK),
    drops: {
      model,
      grid,
      starts: Int32Array.from(rims.kind, (kind, k) =>
        tableStart(tables, kind, Math.max(grid.mmX, grid.mmY) / rims.radius[k], rims.radius[k]),
      ),
      fray: new Float32Array(0),
      line: new Float32Array(0),
      rims: new Float32Array(0),
    },
    scratch: {
      fray: row(),
      settling: row(),
      load: row(),
      shiftX: row(),
      shiftY: row(),
      bleed: row(),
      heavy: row(),
    },
  };
}

function openRow(width: number): SampleRow {
  const row = () => new Float32Array(width);
  return { wash: row(), load: row(), parted: row(), ink: row(), shiftX: row(), shiftY: row(), bleed: row() };
}

function paintRow(painter: Painter, x: number, y: number, count: number, row: SampleRow): void {
  for (const run of runsOf(painter.grid, x, y, count)) paintRun(painter, run, row);
}

/**
 * Samples are worked out in chunks that begin at fixed places of the box, so that a noise summed along
 * a row gives the same bits wherever a band begins.
 */
const CHUNK = 256;

/** Share of the fraying that follows the tooth of the paper. */
const FRAYED = 0.66;

/** How far capillaries draw colours about where they run, as a share of how far they ran. */
const RAGGED = 0.24;

function paintRun(painter: Painter, { column, row: boxRow, at, count }: Run, row: SampleRow): void {
  const { model, grid, scratch, drops } = painter;
  const { paper, moved, parted } = model;
  const { settled, tooth } = painter.grain;
  const y = (boxRow + 0.5) * grid.mmY;
  const end = column + count;
  if (drops.fray.length < count) drops.fray = new Float32Array(count);
  const fray = drops.fray;
  for (let start = column - (column % CHUNK); start < end; start += CHUNK) {
    const length = Math.min(CHUNK, grid.width - start);
    const x = (start + 0.5) * grid.mmX;
    scratch.load.fill(0);
    painter.grain.row(x, y, length);
    for (let k = 0; k < length; k++) scratch.fray[k] = FRAYED * tooth[k];
    addFractalRow(painter.fray, x, grid.mmX, y, 1, scratch.fray, length);
    addBilinearRow(paper.settling, x, grid.mmX, y, 1, scratch.settling.fill(0), length);
    addBicubicRow(paper.wash, x, grid.mmX, y, model.level, scratch.load, length);
    if (parted) addBilinearRow(parted.heavy, x, grid.mmX, y, 2, scratch.heavy.fill(0), length);
    if (moved) {
      scratch.shiftX.fill(0);
      scratch.shiftY.fill(0);
      scratch.bleed.fill(0);
      addBilinearRow(moved.x, x, grid.mmX, y, 1, scratch.shiftX, length);
      addBilinearRow(moved.y, x, grid.mmX, y, 1, scratch.shiftY, length);
      addBilinearRow(moved.bleed, x, grid.mmX, y, 1, scratch.bleed, length);
    }
    const first = Math.max(start, column);
    const to = Math.min(start + length, end) - start;
    settleRun(scratch, settled, first - start, to, row, at + first - column, parted !== undefined);
    fray.set(scratch.fray.subarray(first - start, to), first - column);
    if (moved) moveRun(scratch, settled, first - start, to, row, at + first - column);
  }
  row.load.fill(1, at, at + count);
  if (model.ink) row.ink.fill(0, at, at + count);
  addDrops(drops, column, y, at, count, row.load, model.ink ? row.ink : undefined);
  const { load, wash, parted: parting } = row;
  const level = parted ? parted.level : 0;
  for (let k = at; k < at + count; k++) {
    const depth = load[k];
    const laid = wash[k] * levelled(depth);
    load[k] = laid;
    if (parted) parting[k] = laid * (parting[k] + partedBy(depth) + level);
  }
}

/** Paint lies deeper in the hollows of the paper and hardly on its hills, but never less than none. */
function settleRun(
  { settling, load, heavy }: Scratch,
  settled: Float64Array,
  from: number,
  to: number,
  { wash, parted }: SampleRow,
  at: number,
  isParted: boolean,
): void {
  for (let k = from, there = at; k < to; k++, there++) {
    const sunk = settling[k] * settled[k];
    wash[there] = sunk > -1 ? load[k] * (1 + sunk) : 0;
    if (isParted) parted[there] = heavy[k] + HEAVY_GRAIN * sunk;
  }
}

/** Where colours came from and how far they ran; capillaries draw them about where they run. */
function moveRun(
  scratch: Scratch,
  settled: Float64Array,
  from: number,
  to: number,
  row: SampleRow,
  at: number,
): void {
  const { fray, shiftX, shiftY, bleed } = scratch;
  const { shiftX: alongX, shiftY: alongY, bleed: spread } = row;
  for (let k = from, there = at; k < to; k++, there++) {
    const run = bleed[k];
    alongX[there] = shiftX[k] + RAGGED * run * fray[k];
    alongY[there] = shiftY[k] + 0.8 * RAGGED * run * settled[k];
    spread[there] = run > 0 ? Math.max(0, run * (1 + 0.3 * fray[k])) : 0;
  }
}

/** How much farther heavy paint settles in the hollows than stain does, of what both settle together. */
const HEAVY_GRAIN = 1.2;
/** The stain is swept out of openings farther than heavy paint, and gathers in the rims. */
const IN_OPENING = 0.7;
const IN_RIM = 0.45;

function partedBy(depth: number): number {
  return depth < 1 ? IN_OPENING * (1 - depth) : -IN_RIM * Math.min(1, depth - 1);
}

/** From here on pushed paint stands so high that it levels as fast as it comes, and never beyond twice that. */
const HEAPED = 1.3;
const ABOVE = 1.3;

function levelled(load: number): number {
  if (load <= HEAPED) return load;
  const over = (load - HEAPED) / ABOVE;
  return HEAPED + (ABOVE * over) / (1 + over);
}

function addMeans(row: SampleRow, samples: number, mean: SampleRow): void {
  const share = 1 / (samples * samples);
  for (const name of ['load', 'parted', 'ink', 'shiftX', 'shiftY', 'bleed'] as const) {
    const from = row[name];
    const to = mean[name];
    for (let pixel = 0, at = 0; pixel < to.length; pixel++) {
      let sum = 0;
      for (let k = 0; k < samples; k++) sum += from[at++];
      to[pixel] += sum * share;
    }
  }
}

function partHues(
  [red, green, blue]: readonly [number, number, number],
  parted: Float32Array,
  parting: Float32Array,
  first: number,
): void {
  for (let k = 0, at = first; k < parted.length; k++, at += 3) {
    parting[at] = red * parted[k];
    parting[at + 1] = green * parted[k];
    parting[at + 2] = blue * parted[k];
  }
}

function interleave(x: Float32Array, y: Float32Array, shift: Float32Array, first: number): void {
  for (let k = 0, at = first; k < x.length; k++, at += 2) {
    shift[at] = x[k];
    shift[at + 1] = y[k];
  }
}
