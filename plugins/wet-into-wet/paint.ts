import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type PeriodicField,
  STRIP,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import { addStrayingRow } from './framed.ts';
import { loadOf } from './load-curve.ts';
import type { WetModel } from './model.ts';

type Planes = 'load' | 'shift' | 'tint' | 'bleed';

/** Rows of numbers that a band works in. */
interface Rows {
  readonly log: Float64Array;
  readonly feathers: Float64Array;
  readonly tooth: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly settled: Float64Array;
  readonly spread: Float64Array;
  readonly lobes: Float64Array;
}

interface Brush {
  readonly model: WetModel;
  readonly feathers: FractalNoise;
  readonly tooth: FractalNoise;
  readonly lobes: FractalNoise;
  readonly rows: Rows;
  readonly step: number;
  /** The second paint's colour by its amount, three numbers each. */
  readonly inks: Float32Array;
}

const PER_AMOUNT = 64;
const LAST_AMOUNT = 6 * PER_AMOUNT;
/** How far look-ups stray, in cells per deviation of the feathers. */
const STRAY = 0.42;
/** How far ways are frayed, of the softness of what has run. */
const FRAYED = 0.55;

/** A transparent paint's colour to the power of its amount (Beer and Lambert), from none to six times. */
function inkTable(colour: readonly number[]): Float32Array {
  const table = new Float32Array(3 * (LAST_AMOUNT + 1));
  for (let k = 0; k < table.length; k++)
    table[k] = Math.max(1 / 255, colour[k % 3]) ** (Math.floor(k / 3) / PER_AMOUNT);
  return table;
}

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

/** Fills the planes of a band: each pixel looks up smooth fields, strayed a little, so none shows its cells. */
export function paintWet(model: WetModel, band: Band, layer: TextureLayer<Planes>): void {
  const brush = openBrush(model, band.mmPerPixelX, band.mmPerPixelY, STRIP);
  for (const { x0, y: top, skip, count, height, at } of stripsOf(band, model.lattice)) {
    for (let j = 0; j < height; j++) {
      const y = (top + j + 0.5) * band.mmPerPixelY;
      paintRun(brush, layer, { x0, y, skip, count, at: at + j * band.width });
    }
  }
}

function paintRun(brush: Brush, layer: TextureLayer<Planes>, run: Run): void {
  sharedRows(brush, run.x0, run.y, run.count);
  // A layer holds only the planes that were asked for.
  if (layer.load) loadRow(brush, run, layer.load);
  if (layer.shift || layer.bleed) spreadRows(brush, run);
  if (layer.shift) shiftRow(brush, run, layer.shift);
  if (layer.bleed) bleedRow(brush, run, layer.bleed);
  if (layer.tint && brush.model.second) tintRow(brush, brush.model.second.amount, run, layer.tint);
}

export function openBrush(model: WetModel, mmPerPixelX: number, mmPerPixelY: number, count: number): Brush {
  const fine = (noise: FractalNoise) => fractalOnPixels(noise, mmPerPixelX, mmPerPixelY);
  const row = () => new Float64Array(count);
  return {
    model,
    feathers: fine(model.feathers),
    tooth: fine(model.tooth),
    lobes: fine(model.lobes),
    rows: {
      log: row(),
      feathers: row(),
      tooth: row(),
      a: row(),
      b: row(),
      settled: row(),
      spread: row(),
      lobes: row(),
    },
    step: mmPerPixelX,
    inks: inkTable(model.second?.colour ?? [1, 1, 1]),
  };
}

/** The rows that several planes share. */
export function sharedRows(
  { model, feathers, tooth, rows, step }: Brush,
  x0: number,
  y: number,
  count: number,
): void {
  for (const [noise, row] of [
    [feathers, rows.feathers],
    [tooth, rows.tooth],
  ] as const) {
    row.fill(0, 0, count);
    addFractalRow(noise, x0, step, y, 1, row, count);
  }
  rows.settled.fill(0, 0, count);
  addBilinearRow(model.settled, x0, step, y, 1, rows.settled, count);
}

export function loadRow(
  { model, rows, step }: Brush,
  { x0, y, skip, count, at }: Run,
  load: Float32Array,
): void {
  const { tooth, settled, feathers, log } = rows;
  log.fill(0, 0, count);
  addStrayingRow(model.load, x0, step, y, feathers, tooth, STRAY, log, count);
  const { level } = model;
  for (let k = skip, to = at; k < count; k++, to++) load[to] = loadOf(level + log[k] + settled[k] * tooth[k]);
}

/** How far paint has run, and the noise that frays it. */
function spreadRows({ model, lobes, rows, step }: Brush, { x0, y, count }: Run): void {
  rows.spread.fill(0, 0, count);
  addBilinearRow(model.bleed, x0, step, y, 1, rows.spread, count);
  rows.lobes.fill(0, 0, count);
  addFractalRow(lobes, x0, step, y, 1, rows.lobes, count);
}

function shiftRow({ model, rows, step }: Brush, { x0, y, skip, count, at }: Run, shift: Float32Array): void {
  const dx = rows.a.fill(0, 0, count);
  const dy = rows.b.fill(0, 0, count);
  addBilinearRow(model.moveX, x0, step, y, 1, dx, count);
  addBilinearRow(model.moveY, x0, step, y, 1, dy, count);
  const { feathers, tooth, lobes, spread } = rows;
  for (let k = skip, to = 2 * at; k < count; k++, to += 2) {
    // Paint goes between fibres: what runs is frayed before it is soft.
    const frayed = FRAYED * spread[k];
    shift[to] = dx[k] + frayed * (0.9 * lobes[k] + 0.3 * tooth[k] + 0.25 * feathers[k]);
    shift[to + 1] = dy[k] + frayed * (0.55 * feathers[k] - 0.5 * lobes[k] + 0.3 * tooth[k]);
  }
}

function bleedRow({ rows }: Brush, { skip, count, at }: Run, bleed: Float32Array): void {
  const { spread } = rows;
  for (let k = skip, to = at; k < count; k++, to++) bleed[to] = Math.max(spread[k], 0);
}

function tintRow(
  { rows, step: mm, inks }: Brush,
  amount: PeriodicField,
  { x0, y, skip, count, at }: Run,
  tint: Float32Array,
): void {
  const sum = rows.a.fill(0, 0, count);
  addBicubicRow(amount, x0, mm, y, 1, sum, count);
  const { tooth, settled } = rows;
  for (let k = skip, to = 4 * at; k < count; k++, to += 4) {
    const there = sum[k] > 0 ? sum[k] * loadOf(settled[k] * tooth[k]) : 0;
    // Of the table; more than it holds is as good as all.
    const step = there * PER_AMOUNT < LAST_AMOUNT ? (there * PER_AMOUNT) | 0 : LAST_AMOUNT - 1;
    const share = Math.min(1, there * PER_AMOUNT - step);
    const entry = 3 * step;
    tint[to] = inks[entry] + share * (inks[entry + 3] - inks[entry]);
    tint[to + 1] = inks[entry + 1] + share * (inks[entry + 4] - inks[entry + 1]);
    tint[to + 2] = inks[entry + 2] + share * (inks[entry + 5] - inks[entry + 2]);
    tint[to + 3] = 1;
  }
}
