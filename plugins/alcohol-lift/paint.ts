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

/** How far capillaries draw colours about where they run, as a share of how far they ran. */
const RAGGED = 0.24;

function paintRun(painter: Painter, { column, row: boxRow, at, count }: Run, row: SampleRow): void {
  const { model, grid, scratch, drops } = painter;
  const { paper, moved, parted } = model;
  const { settled } = painter.grain;
  const y = (boxRow + 0.5) * grid.mmY;
  const end = column + count;
  if (drops.fray.length < count) drops.fray = new Float32Array(count);
  const fray = drops.fray;
  for (let start = column - (column % CHUNK); start < end; start += CHUNK) {
    const length = Math.min(CHUNK, grid.width - start);
    const x = (start + 0.5) * grid.mmX;
    scratch.fray.fill(0);
    scratch.load.fill(0);
    addFractalRow(painter.fray, x, grid.mmX, y, 1, scratch.fray, length);
    painter.grain.row(x, y, length);
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
    const from = Math.max(start, column);
    const to = Math.min(start + length, end);
    for (let k = from; k < to; k++) {
      const here = k - start;
      const there = at + k - column;
      // Paint lies deeper in the hollows of the paper and hardly on its hills, but never less than none.
      const rough = scratch.fray[here];
      const sunk = scratch.settling[here] * settled[here];
      row.wash[there] = scratch.load[here] * Math.max(0, 1 + sunk);
      row.load[there] = 1;
      if (parted) row.parted[there] = scratch.heavy[here] + HEAVY_GRAIN * sunk;
      row.ink[there] = 0;
      fray[k - column] = rough;
      if (!moved) continue;
      const run = scratch.bleed[here];
      row.shiftX[there] = scratch.shiftX[here] + RAGGED * run * rough;
      row.shiftY[there] = scratch.shiftY[here] + 0.8 * RAGGED * run * settled[here];
      row.bleed[there] = run > 0 ? Math.max(0, run * (1 + 0.3 * rough)) : 0;
    }
  }
  addDrops(drops, column, y, at, count, row.load, model.ink ? row.ink : undefined);
  for (let k = at; k < at + count; k++) {
    const depth = row.load[k];
    row.load[k] = row.wash[k] * levelled(depth);
    if (parted) row.parted[k] = row.load[k] * (row.parted[k] + partedBy(depth) + parted.level);
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
