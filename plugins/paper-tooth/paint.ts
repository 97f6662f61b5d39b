import {
  addBicubicRow,
  addFractalRow,
  addInRuns,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type HomePart,
  homeParts,
  pixelShare,
  runLength,
  type TextureLayer,
} from 'tenter';
import { drawFibres } from './fibres.ts';
import { CHAIN_STEPS } from './laid.ts';
import type { PaperModel } from './model.ts';

type PaperLayer = TextureLayer<'relief' | 'shade' | 'load'>;

/** Fills the planes of a band. */
export function paintPaper(model: PaperModel, band: Band, layer: PaperLayer): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const share = pixelShare(model.scale.octaves[0], mmPerPixelX, mmPerPixelY);
  const drawn: DrawnPaper = {
    ...model,
    amplitude: model.amplitude * share,
    grain: fractalOnPixels(model.grain, mmPerPixelX, mmPerPixelY),
    speckle: fractalOnPixels(model.speckle, mmPerPixelX, mmPerPixelY),
    hollows: share * model.granulation,
    laidHeight: model.laidHeight * waveShare(model.wires.laidPerMm * mmPerPixelY),
    chainShare: Math.min(1, 0.6 / Math.hypot(0.5, mmPerPixelX)),
  };
  for (const part of homeParts(band, model.lattice)) paintPart(drawn, band, part, layer);
}

/** A paper as pixels of a size show it. */
interface DrawnPaper extends PaperModel {
  readonly hollows: number;
  readonly chainShare: number;
}

/** What the mean over a part of a wave leaves of it. */
function waveShare(wavesPerPixel: number): number {
  const angle = Math.PI * wavesPerPixel;
  return angle === 0 ? 1 : Math.max(0, Math.sin(Math.min(angle, Math.PI)) / angle);
}

/** Rows of one number for each pixel, filled in runs. */
interface Rows {
  readonly sheet: Float32Array;
  readonly clouds: Float32Array;
  readonly grain: Float32Array;
  readonly speckle: Float32Array;
}

function paintPart(model: DrawnPaper, band: Band, part: HomePart, layer: PaperLayer): void {
  const length = runLength(part.width);
  const rows: Rows = {
    sheet: new Float32Array(length),
    clouds: new Float32Array(length),
    grain: new Float32Array(length),
    speckle: new Float32Array(length),
  };
  const hasLoad = layer.load !== undefined;
  const chains = chainRow(model, band, part);
  for (let j = 0; j < part.height; j++) {
    const y = (part.y + j + 0.5) * band.mmPerPixelY;
    const at = fillRows(model, band, part, y, hasLoad, rows);
    const to = part.at + j * band.width;
    raiseRow(model, rows, at, y, chains, layer, to, part.width);
  }
  addFibres(model, band, part, layer);
}

function fillRows(
  model: DrawnPaper,
  band: Band,
  part: HomePart,
  y: number,
  hasLoad: boolean,
  { sheet, clouds, grain, speckle }: Rows,
): number {
  const step = band.mmPerPixelX;
  addInRuns(part.x, part.width, sheet, (pixel, n, offset) =>
    addBicubicRow(model.sheet, (pixel + 0.5) * step, step, y, 1, sheet, n, offset),
  );
  addInRuns(part.x, part.width, clouds, (pixel, n, offset) =>
    addBicubicRow(model.clouds, (pixel + 0.5) * step, step, y, 1, clouds, n, offset),
  );
  const addNoise = (noise: FractalNoise, row: Float32Array) =>
    addInRuns(part.x, part.width, row, (pixel, n, offset) =>
      addFractalRow(noise, (pixel + 0.5) * step, step, y, 1, row, n, offset),
    );
  if (hasLoad) addNoise(model.speckle, speckle);
  return addNoise(model.grain, grain);
}

/** How high the chain lines are at each pixel of a row: the same for all rows. */
function chainRow({ wires }: DrawnPaper, band: Band, part: HomePart): Float32Array {
  const height = new Float32Array(part.width);
  if (wires.laidPerMm === 0) return height;
  for (let k = 0; k < part.width; k++) {
    const chain = (part.x + k + 0.5) * band.mmPerPixelX * wires.chainsPerMm;
    height[k] = wires.chainHeight[Math.floor((chain - Math.floor(chain)) * CHAIN_STEPS)];
  }
  return height;
}

/** One turn of a laid line, in steps. */
const WAVE_STEPS = 512;
const WAVE = Float32Array.from({ length: WAVE_STEPS }, (_, k) => Math.cos((2 * Math.PI * k) / WAVE_STEPS));
/** Laid lines are wires beaten by hand: they stray by this share of the clouds, in lines. */
const LAID_STRAYING = 0.9;
/** What paper returns beside the bare ground: its hollows keep some light. */
const LEVEL = 0.985;
/** How much darker a hollow one deviation deep is for being a hollow. */
const HOLLOW = 0.018;
/** How much more paint a hollow one deviation deep holds at granulation 1. */
const SETTLING = 0.5;
/** Laid lines hold paint like a hollow of so many deviations. */
const LAID_SETTLING = 0.5;

function raiseRow(
  model: DrawnPaper,
  { sheet, clouds, grain, speckle }: Rows,
  at: number,
  y: number,
  chains: Float32Array,
  layer: PaperLayer,
  to: number,
  width: number,
): void {
  const { amplitude, wires, laidHeight, chainShare, hollows } = model;
  const isLaid = laidHeight > 0;
  const turns = wires.laidPerMm * WAVE_STEPS;
  const chainHeight = laidHeight * chainShare;
  for (let k = 0; k < width; k++) {
    // In deviations of an unpressed sheet.
    let level = sheet[at + k] * (1 + clouds[at + k]);
    let height = amplitude * level + grain[at + k];
    if (isLaid) {
      const line = (y * turns + LAID_STRAYING * WAVE_STEPS * clouds[at + k]) | 0;
      const wave = WAVE[line & (WAVE_STEPS - 1)];
      height += laidHeight * wave + chainHeight * chains[k];
      level += LAID_SETTLING * (wave + chains[k]);
    }
    if (layer.relief) layer.relief[to + k] = height;
    if (layer.shade) layer.shade[to + k] = Math.max(0, LEVEL * (1 + HOLLOW * level));
    if (layer.load) layer.load[to + k] = Math.max(0, 1 - SETTLING * hollows * level + speckle[at + k]);
  }
}

/** mm: how thick a fibre lies on the sheet. */
const FIBRE_HEIGHT = 0.018;
/** How much darker it is all over, and how much paint it takes or sheds. */
const FIBRE_TONE = 0.12;
const FIBRE_SHED = 0.35;

function addFibres(model: DrawnPaper, band: Band, part: HomePart, layer: PaperLayer): void {
  drawFibres(model.fibres, model, { ...band, ...part }, (pixel, cover, rise) => {
    const row = Math.floor(pixel / part.width);
    const to = part.at + row * band.width + pixel - row * part.width;
    if (layer.relief) layer.relief[to] += FIBRE_HEIGHT * cover * rise;
    if (layer.shade) layer.shade[to] *= 1 - FIBRE_TONE * cover;
    if (layer.load) layer.load[to] *= 1 - FIBRE_SHED * cover * model.granulation;
  });
}
