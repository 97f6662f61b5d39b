import {
  addFractalRow,
  addInRuns,
  type Band,
  fractalOnPixels,
  fractalVariance,
  homeParts,
  neutralLayer,
  normalShare,
  runLength,
  type TextureLayer,
} from 'tenter';
import type { Face } from './face.ts';
import type { SpongeModel } from './model.ts';
import {
  AMOUNT_LAST,
  AMOUNT_REACH,
  AMOUNT_STEPS,
  type PaintRow,
  type Pressing,
  pressRow,
  touchesIn,
} from './press.ts';

/** How softly marks end, and how much the paper's grain breaks them, in deviations of the face. */
const SOFTNESS = 0.12;
const GRAIN = 0.3;

/** Larger pixels than this, mm, are the mean of several samples along each side, of so many at most. */
const FINE_PIXEL = 0.12;
const MOST_SAMPLES = 3;

/**
 * Fills the planes of a band. Pores are no normal noise, so what a large pixel hides of them is told only
 * roughly by its variance: it is sampled more finely first.
 */
export function paintSponge(model: SpongeModel, band: Band, layer: TextureLayer<'tint' | 'load'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const wanted = Math.ceil(Math.sqrt(mmPerPixelX * mmPerPixelY) / FINE_PIXEL - 1e-9);
  const samples = Math.max(1, Math.min(MOST_SAMPLES, wanted));
  const pressing = openPressing(model, mmPerPixelX / samples, mmPerPixelY / samples);
  if (samples === 1) paintSamples(model, pressing, band, layer);
  else paintMeans(model, pressing, band, layer, samples);
}

function paintSamples(
  model: SpongeModel,
  pressing: Pressing,
  band: Band,
  layer: TextureLayer<'tint' | 'load'>,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const { tooth } = pressing;
  const grain = GRAIN / pressing.softness;
  const noise = new Float32Array(runLength(band.width));
  const row = { amount: new Float32Array(band.width), second: new Float32Array(band.width) };
  for (const part of homeParts(band, model.lattice)) {
    const touches = touchesIn(model, part, band);
    for (let j = 0; j < part.height; j++) {
      const y = (part.y + j + 0.5) * mmPerPixelY;
      const from = addInRuns(part.x, part.width, noise, (pixel, count, offset) =>
        addFractalRow(tooth, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, grain, noise, count, offset),
      );
      row.amount.fill(0, 0, part.width);
      row.second.fill(0, 0, part.width);
      for (const touch of touches) {
        pressRow(touch, pressing, y, part.x, part.width, mmPerPixelX, noise, from, row);
      }
      const at = part.at + j * band.width;
      // A layer holds only the planes that were asked for.
      if (layer.tint) tintRow(model, row, part.width, layer.tint, at);
      if (layer.load) loadRow(model, row, part.width, layer.load, at);
    }
  }
}

/** Row by row, so that no more than a few rows of samples are held. */
function paintMeans(
  model: SpongeModel,
  pressing: Pressing,
  band: Band,
  layer: TextureLayer<'tint' | 'load'>,
  samples: number,
): void {
  const planes = (['tint', 'load'] as const).filter((name) => layer[name]);
  const [width, height] = [band.width * samples, samples];
  for (let j = 0; j < band.height; j++) {
    const fine = neutralLayer(planes, width, height);
    const rows: Band = {
      x: band.x * samples,
      y: (band.y + j) * samples,
      width,
      height,
      mmPerPixelX: band.mmPerPixelX / samples,
      mmPerPixelY: band.mmPerPixelY / samples,
    };
    paintSamples(model, pressing, rows, fine as TextureLayer<'tint' | 'load'>);
    if (fine.load) meanLoads(fine.load, samples, band.width, layer.load, j * band.width);
    if (fine.tint) meanTints(fine.tint, samples, band.width, layer.tint, j * band.width);
  }
}

function meanLoads(fine: Float32Array, samples: number, count: number, load: Float32Array, at: number): void {
  for (let i = 0; i < count; i++) {
    let sum = 0;
    for (let row = 0; row < samples; row++) {
      for (let k = 0; k < samples; k++) sum += fine[(row * count + i) * samples + k];
    }
    load[at + i] = sum / samples ** 2;
  }
}

/** Colours count as far as they cover. */
function meanTints(fine: Float32Array, samples: number, count: number, tint: Float32Array, at: number): void {
  const sum = [0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    sum.fill(0);
    for (let row = 0; row < samples; row++) {
      for (let k = 0; k < samples; k++) {
        const from = 4 * ((row * count + i) * samples + k);
        for (let c = 0; c < 3; c++) sum[c] += fine[from + c] * fine[from + 3];
        sum[3] += fine[from + 3];
      }
    }
    const to = 4 * (at + i);
    for (let c = 0; c < 3; c++) tint[to + c] = sum[3] > 0 ? Math.min(1, sum[c] / sum[3]) : 0;
    tint[to + 3] = sum[3] / samples ** 2;
  }
}

function openPressing(model: SpongeModel, mmPerPixelX: number, mmPerPixelY: number): Pressing {
  const mmPerPixel = Math.sqrt(mmPerPixelX * mmPerPixelY);
  const tooth = fractalOnPixels(model.tooth, mmPerPixelX, mmPerPixelY);
  const hidden = 1 - fractalVariance(tooth) / fractalVariance(model.tooth);
  const face = faceFor(model, mmPerPixel);
  const softness = Math.sqrt(SOFTNESS ** 2 + face.lost + GRAIN ** 2 * hidden);
  return {
    tooth,
    face,
    lobes: model.lobes,
    facePerMm: face.side / model.faceSide,
    lobesPerMm: model.lobes.side / model.lobesSide,
    softness,
    stride: strideFor(model, mmPerPixel),
    amounts: amountsOf(model.edges, softness),
  };
}

/** Pixels over which lobes hardly bend: a tenth of a lobe. */
function strideFor({ lobes, lobesSide }: SpongeModel, mmPerPixel: number): number {
  return Math.max(1, Math.min(24, Math.floor((1.6 * lobesSide) / lobes.side / mmPerPixel)));
}

/** Cells beside a pixel: larger ones would hide more pores than the samples do. */
const LARGEST_CELL = 0.45;

/** The finest face whose cells are not much smaller than a pixel. */
function faceFor({ faces, faceSide }: SpongeModel, mmPerPixel: number): Face {
  let k = 0;
  while (k + 1 < faces.length && faceSide / faces[k + 1].side <= LARGEST_CELL * mmPerPixel) k++;
  return faces[k];
}

/** How much paint stands where the face lies `z` deviations into the paper: it is pressed out to the edges. */
function paintAt(z: number, edges: number): number {
  const middle = Math.max(0, Math.min(2.5, z));
  return 0.88 + edges * (0.26 * Math.exp(-(((z - 0.25) / 0.3) ** 2)) - 0.11 * middle);
}

/** Points over which the mean is taken, and how many deviations they reach. */
const POINTS = 24;
const SPREAD = 3;

/**
 * Paint per share by how deep the face lies, see `AMOUNT_STEPS`: the mean over what the pixel hides, so that a far view holds
 * as much paint in its edges as a near one.
 */
function amountsOf(edges: number, softness: number): Float32Array {
  const hidden = Math.sqrt(Math.max(0, softness ** 2 - SOFTNESS ** 2));
  return Float32Array.from({ length: AMOUNT_LAST + 1 }, (_, k) => {
    const middle = k / AMOUNT_STEPS - AMOUNT_REACH;
    let paint = 0;
    let share = 0;
    for (let n = 0; n < POINTS; n++) {
      const t = SPREAD * ((2 * n + 1) / POINTS - 1);
      const z = middle + hidden * t;
      const weight = Math.exp((-t * t) / 2) * normalShare(z / SOFTNESS);
      share += weight;
      paint += weight * paintAt(z, edges);
    }
    return share > 0 ? paint / share : paintAt(middle, edges);
  });
}

function tintRow(
  { colours: [one, two], strength }: SpongeModel,
  { amount, second }: PaintRow,
  count: number,
  tint: Float32Array,
  at: number,
): void {
  for (let i = 0, to = 4 * at; i < count; i++, to += 4) {
    const share = amount[i] > 0 ? Math.min(1, second[i] / amount[i]) : 0;
    tint[to] = one[0] + (two[0] - one[0]) * share;
    tint[to + 1] = one[1] + (two[1] - one[1]) * share;
    tint[to + 2] = one[2] + (two[2] - one[2]) * share;
    tint[to + 3] = strength * amount[i];
  }
}

function loadRow(
  { action, strength, gain }: SpongeModel,
  { amount }: PaintRow,
  count: number,
  load: Float32Array,
  at: number,
): void {
  const start = action === 'off' ? 1 : 1 - strength;
  const rise = action === 'off' ? -strength : strength;
  for (let i = 0; i < count; i++) load[at + i] = gain * (start + rise * amount[i]);
}
