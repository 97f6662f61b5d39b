import {
  addBicubicRow,
  addFractalRow,
  addInRuns,
  type Band,
  fractalOnPixels,
  type HomePart,
  homeParts,
  runLength,
  type TextureLayer,
} from 'tenter';
import type { WateredModel } from './model.ts';
import { RIB_STEPS } from './press.ts';
import { type PressedRows, pressRows, type SampleRow } from './ribs.ts';

/** Samples across a pixel that is wider than this, mm: the bands are finer. */
const WIDEST_SAMPLE = 0.6;
const MOST_SAMPLES = 8;
/** No rib strays farther than this from its even place, in ribs: over six deviations. */
const FARTHEST = 2;

/** Fills the shade of a band. */
export function paintWatered(model: WateredModel, band: Band, layer: TextureLayer<'shade'>): void {
  const samples = Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(band.mmPerPixelX / WIDEST_SAMPLE)));
  const step = band.mmPerPixelX / samples;
  const drawn = { ...model, filaments: fractalOnPixels(model.filaments, step, band.mmPerPixelY) };
  for (const part of homeParts(band, model.lattice)) paintPart(drawn, band, part, samples, layer.shade);
}

function paintPart(
  model: WateredModel,
  band: Band,
  part: HomePart,
  samples: number,
  shade: Float32Array,
): void {
  const step = band.mmPerPixelX / samples;
  const row: SampleRow = { first: part.x * samples, count: part.width * samples, step };
  const firstRib = Math.floor((part.y * band.mmPerPixelY) / model.pitch) - FARTHEST;
  const lastRib = Math.ceil(((part.y + part.height) * band.mmPerPixelY) / model.pitch) + FARTHEST;
  const rows = pressRows(model, row, firstRib, lastRib - firstRib + 1);
  const strayed = new Float32Array(runLength(row.count));
  const filaments = new Float32Array(runLength(row.count));
  const light = new Float32Array(row.count);
  let upper = new Float64Array(row.count);
  let lower = new Float64Array(row.count);
  countRibs(model, row, part.y * band.mmPerPixelY, strayed, upper);
  for (let j = 0; j < part.height; j++) {
    const y = (part.y + j + 0.5) * band.mmPerPixelY;
    countRibs(model, row, (part.y + j + 1) * band.mmPerPixelY, strayed, lower);
    const at = addInRuns(row.first, row.count, filaments, (sample, n, offset) =>
      addFractalRow(model.filaments, (sample + 0.5) * step, step, y, 1, filaments, n, offset),
    );
    lightRow(model, rows, upper, lower, filaments, at, light);
    meanInto(light, samples, shade, part.at + j * band.width, part.width);
    [upper, lower] = [lower, upper];
  }
}

/** Ribs counted down to `y` mm at each sample of a row. */
function countRibs(
  { straying, pitch }: WateredModel,
  { first, count, step }: SampleRow,
  y: number,
  strayed: Float32Array,
  to: Float64Array,
): void {
  const at = addInRuns(first, count, strayed, (sample, n, offset) =>
    addBicubicRow(straying, (sample + 0.5) * step, step, y, 1, strayed, n, offset),
  );
  const even = y / pitch;
  for (let k = 0; k < count; k++) {
    const stray = strayed[at + k];
    to[k] = even + Math.max(-FARTHEST, Math.min(FARTHEST, stray));
  }
}

/** Of light above this only a part is left. */
const BRIGHTEST = 1.25;
const BEND = 0.4;

/** The mean light of each sample, which reaches from `upper` to `lower` ribs. */
function lightRow(
  { ribs: { even, mark }, mean }: WateredModel,
  { firstRib, lag, press }: PressedRows,
  upper: Float64Array,
  lower: Float64Array,
  filaments: Float32Array,
  at: number,
  light: Float32Array,
): void {
  const { length } = light;
  for (let k = 0; k < length; k++) {
    const from = upper[k];
    const to = lower[k];
    let rib = Math.floor(from);
    let index = (rib - firstRib) * length + k;
    let v = (from - rib) * RIB_STEPS;
    let n = v | 0;
    let part = v - n;
    let row = lag[index] + n;
    let base = -(even[n] + part * (even[n + 1] - even[n]));
    let marked = -press[index] * (mark[row] + part * (mark[row + 1] - mark[row]));
    for (const last = Math.floor(to); rib < last; rib++) {
      marked += press[index] * mark[lag[index] + RIB_STEPS];
      index += length;
    }
    v = (to - rib) * RIB_STEPS;
    n = v | 0;
    part = v - n;
    row = lag[index] + n;
    base += even[n] + part * (even[n + 1] - even[n]);
    marked += press[index] * (mark[row] + part * (mark[row + 1] - mark[row]));
    const lit = mean * (1 + (base + marked) / (to - from)) * (1 + filaments[at + k]);
    light[k] = Math.max(0, lit > BRIGHTEST ? BRIGHTEST + BEND * (lit - BRIGHTEST) : lit);
  }
}

function meanInto(row: Float32Array, samples: number, plane: Float32Array, to: number, pixels: number): void {
  for (let pixel = 0, at = 0; pixel < pixels; pixel++) {
    let sum = 0;
    for (let k = 0; k < samples; k++) sum += row[at++];
    plane[to + pixel] = sum / samples;
  }
}
