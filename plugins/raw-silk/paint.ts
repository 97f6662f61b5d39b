import {
  addBicubicRow,
  addFractalRow,
  addInRuns,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type HomePart,
  homeParts,
  runLength,
  type TextureLayer,
} from 'tenter';
import { openKnots, stepKnots } from './knots.ts';
import { RIB_STEPS, TABLE_STEPS } from './light.ts';
import type { SilkModel } from './model.ts';
import { cutPiece } from './piece.ts';

type SilkLayer = TextureLayer<'shade' | 'tint'>;

/** Samples across a pixel that is wider than this, mm: the thickness of the picks is known no finer. */
const WIDEST_SAMPLE = 0.9;
const MOST_SAMPLES = 8;

/** Fills the planes of a band. */
export function paintSilk(model: SilkModel, band: Band, layer: SilkLayer): void {
  const samples = Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(band.mmPerPixelX / WIDEST_SAMPLE)));
  const mmPerSample = band.mmPerPixelX / samples;
  const look = { ...model };
  look.filaments = fractalOnPixels(model.filaments, mmPerSample, band.mmPerPixelY);
  look.endTones = fractalOnPixels(model.endTones, mmPerSample, band.mmPerPixelY);
  for (const part of homeParts(band, model.lattice)) paintPart(look, band, part, samples, layer);
}

/** Rows of one number for each sample. */
interface SampleRows {
  readonly filaments: Float32Array;
  readonly lie: Float32Array;
  readonly straying: Float32Array;
  /** Ribs counted down to the upper edge of the row, and the three integrals there. */
  readonly upper: Float64Array;
  readonly shade: Float32Array;
  readonly share: Float32Array;
}

function openRows(count: number): SampleRows {
  return {
    filaments: new Float32Array(runLength(count)),
    lie: new Float32Array(runLength(count)),
    straying: new Float32Array(runLength(count)),
    upper: new Float64Array(4 * count),
    shade: new Float32Array(count),
    share: new Float32Array(count),
  };
}

function paintPart(model: SilkModel, band: Band, part: HomePart, samples: number, layer: SilkLayer): void {
  const step = band.mmPerPixelX / samples;
  const first = part.x * samples;
  const count = part.width * samples;
  const top = part.y * band.mmPerPixelY;
  const bottom = (part.y + part.height) * band.mmPerPixelY;
  const piece = cutPiece(model, (first + 0.5) * step, (first + count - 0.5) * step, top, bottom);
  const knots = openKnots(piece, top);
  const rows = openRows(count);
  const row: RowPlace = { first, step, count, y: 0, at: 0 };
  const place = placesOnKnots(model, piece.firstKnot, row);
  countRibs(model, knots.ribs, place, rows.upper);
  for (let j = 0; j < part.height; j++) {
    row.y = (part.y + j + 0.5) * band.mmPerPixelY;
    stepKnots(knots, (part.y + j + 1) * band.mmPerPixelY);
    fillNoise(model, row, rows);
    shadeRow(model, knots, place, row, rows);
    const to = part.at + j * band.width;
    if (layer.shade) meanInto(rows.shade, samples, layer.shade, to, part.width);
    if (layer.tint) tintRow(model, rows.share, samples, layer.tint, to, part.width);
  }
}

/** The samples of a row: the first counted from the corner of the box, mm from one to the next. */
interface RowPlace {
  readonly first: number;
  readonly step: number;
  readonly count: number;
  y: number;
  /** Where the first sample stands in the rows of noise. */
  at: number;
}

function fillNoise(model: SilkModel, row: RowPlace, rows: SampleRows): void {
  const { first, step, count, y } = row;
  const addNoise =
    (noise: FractalNoise) => (to: Float32Array) => (sample: number, n: number, offset: number) =>
      addFractalRow(noise, (sample + 0.5) * step, step, y, 1, to, n, offset);
  const filaments = addNoise(model.filaments)(rows.filaments);
  const ends = addNoise(model.endTones)(rows.filaments);
  row.at = addInRuns(first, count, rows.filaments, (sample, n, offset) => {
    filaments(sample, n, offset);
    ends(sample, n, offset);
  });
  addInRuns(first, count, rows.lie, (sample, n, offset) =>
    addBicubicRow(model.lie, (sample + 0.5) * step, step, y, 1, rows.lie, n, offset),
  );
  addInRuns(first, count, rows.straying, (sample, n, offset) =>
    addBicubicRow(model.straying, (sample + 0.5) * step, step, y, 1, rows.straying, n, offset),
  );
}

/** Where each sample lies among the knots of the piece: whole number and rest. */
interface KnotPlaces {
  readonly knot: Int32Array;
  readonly rest: Float64Array;
}

function placesOnKnots(
  { shape }: SilkModel,
  firstKnot: number,
  { first, step, count }: RowPlace,
): KnotPlaces {
  const knot = new Int32Array(count);
  const rest = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const at = ((first + k + 0.5) * step) / shape.mmPerCellX - 0.5;
    knot[k] = Math.floor(at) - firstKnot;
    rest[k] = at - Math.floor(at);
  }
  return { knot, rest };
}

function countRibs({ ribs }: SilkModel, counted: Float64Array, { knot, rest }: KnotPlaces, to: Float64Array) {
  for (let k = 0, at = 0; k < knot.length; k++, at += 4) {
    const left = counted[knot[k]];
    const rib = left + rest[k] * (counted[knot[k] + 1] - left);
    const place = rib * RIB_STEPS;
    const whole = Math.floor(place);
    const part = place - whole;
    const n = 3 * (whole & (TABLE_STEPS - 1));
    to[at] = rib;
    to[at + 1] = ribs[n] + part * (ribs[n + 3] - ribs[n]);
    to[at + 2] = ribs[n + 1] + part * (ribs[n + 4] - ribs[n + 1]);
    to[at + 3] = ribs[n + 2] + part * (ribs[n + 5] - ribs[n + 2]);
  }
}

/** One turn of the wave that the warp makes, in steps. */
const WAVE_STEPS = 256;
const WAVE = Float32Array.from({ length: WAVE_STEPS }, (_, k) => Math.cos((2 * Math.PI * k) / WAVE_STEPS));

/** How much of the cloth's face is warp where all is even, and what changes it. */
const WARP_SHARE = 0.42;
const SHARE_OF_LIE = 0.04;
const SHARE_OF_GLEAM = 0.45;
const SHARE_OF_CROSSING = 0.45;

/** Of light above this, a slub's in full gleam, only a part is left. */
const BRIGHTEST = 1.35;
const BEND = 0.4;

/**
 * Draws a row of samples: the rib table's integrals at the row's lower edge less those at its upper
 * edge are the row's mean light, which the picks' tone, the filaments and the lie of the cloth colour.
 */
function shadeRow(
  { ribs, look, endsPerMm }: SilkModel,
  { ribs: counted, tone, gloss }: ReturnType<typeof openKnots>,
  { knot, rest }: KnotPlaces,
  { first, step, count, at: from }: RowPlace,
  { filaments, lie, straying, upper, shade, share }: SampleRows,
): void {
  const perSample = (endsPerMm * step * WAVE_STEPS) / 2;
  const perEnd = WAVE_STEPS / 2;
  const blur = (Math.PI * endsPerMm * step) / 2;
  const crossed = blur < 3 ? Math.sin(blur) / blur : 0;
  const grain = look.grain * crossed;
  for (let k = 0, at = 0; k < count; k++, at += 4) {
    const i = knot[k];
    const f = rest[k];
    const rib = counted[i] + f * (counted[i + 1] - counted[i]);
    const place = rib * RIB_STEPS;
    const whole = Math.floor(place);
    const part = place - whole;
    const n = 3 * (whole & (TABLE_STEPS - 1));
    const perRib = 1 / (rib - upper[at]);
    const low0 = ribs[n] + part * (ribs[n + 3] - ribs[n]);
    const low1 = ribs[n + 1] + part * (ribs[n + 4] - ribs[n + 1]);
    const low2 = ribs[n + 2] + part * (ribs[n + 5] - ribs[n + 2]);
    const lit = (low0 - upper[at + 1]) * perRib;
    const gleam = (low1 - upper[at + 2]) * perRib;
    const over = (low2 - upper[at + 3]) * perRib;
    upper[at] = rib;
    upper[at + 1] = low0;
    upper[at + 2] = low1;
    upper[at + 3] = low2;
    const end = ((first + k + 0.5) * perSample + straying[from + k] * perEnd) | 0;
    const crossing = over * WAVE[end & (WAVE_STEPS - 1)];
    const lying = lie[from + k];
    const shining = gloss[i] + f * (gloss[i + 1] - gloss[i]);
    const light =
      look.mean *
      (tone[i] + f * (tone[i + 1] - tone[i])) *
      (1 + shining * lit + grain * crossing) *
      (1 + shining * filaments[from + k] + look.sheen * lying);
    shade[k] = Math.max(0, light > BRIGHTEST ? BRIGHTEST + BEND * (light - BRIGHTEST) : light);
    const warp =
      WARP_SHARE +
      SHARE_OF_LIE * lying -
      SHARE_OF_GLEAM * shining * gleam +
      SHARE_OF_CROSSING * crossed * crossing;
    share[k] = Math.max(0, Math.min(1, warp));
  }
}

function meanInto(row: Float32Array, samples: number, plane: Float32Array, to: number, pixels: number): void {
  for (let pixel = 0, at = 0; pixel < pixels; pixel++) {
    let sum = 0;
    for (let k = 0; k < samples; k++) sum += row[at++];
    plane[to + pixel] = sum / samples;
  }
}

function tintRow(
  { look }: SilkModel,
  share: Float32Array,
  samples: number,
  tint: Float32Array,
  to: number,
  pixels: number,
): void {
  const { warp, weft, shot } = look;
  for (let pixel = 0, at = 0, out = 4 * to; pixel < pixels; pixel++, out += 4) {
    let sum = 0;
    for (let k = 0; k < samples; k++) sum += share[at++];
    const part = sum / samples;
    tint[out] = weft[0] + part * (warp[0] - weft[0]);
    tint[out + 1] = weft[1] + part * (warp[1] - weft[1]);
    tint[out + 2] = weft[2] + part * (warp[2] - weft[2]);
    tint[out + 3] = shot;
  }
}
