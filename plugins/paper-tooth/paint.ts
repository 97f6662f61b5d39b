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
import { returned, SLOPE_REACH } from './light.ts';
import type { PaperModel } from './model.ts';

type PaperLayer = TextureLayer<'shade' | 'load'>;

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
    reach: Math.max(SLOPE_REACH, 0.35 * Math.max(mmPerPixelX, mmPerPixelY)),
  };
  for (const part of homeParts(band, model.lattice)) paintPart(drawn, band, part, layer);
}

/** A paper as pixels of a size show it. */
interface DrawnPaper extends PaperModel {
  readonly hollows: number;
  readonly chainShare: number;
  /** mm over which slopes are taken. */
  readonly reach: number;
}

/** What the mean over a part of a wave leaves of it. */
function waveShare(wavesPerPixel: number): number {
  const angle = Math.PI * wavesPerPixel;
  return angle === 0 ? 1 : Math.max(0, Math.sin(Math.min(angle, Math.PI)) / angle);
}

/** Rows of one number for each pixel, filled in runs. */
interface Rows {
  readonly near: Float32Array;
  readonly far: Float32Array;
  readonly clouds: Float32Array;
  readonly grain: Float32Array;
  readonly speckle: Float32Array;
}

function paintPart(model: DrawnPaper, band: Band, part: HomePart, layer: PaperLayer): void {
  const length = runLength(part.width);
  const rows: Rows = {
    near: new Float32Array(length),
    far: new Float32Array(length),
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
    lightRow(model, rows, at, y, chains, layer, to, part.width);
  }
  addFibres(model, band, part, layer);
}

function fillRows(
  model: DrawnPaper,
  band: Band,
  part: HomePart,
  y: number,
  hasLoad: boolean,
  { near, far, clouds, grain, speckle }: Rows,
): number {
  const step = band.mmPerPixelX;
  const [tx, ty] = model.towards;
  const { reach, sheet } = model;
  addInRuns(part.x, part.width, near, (pixel, n, offset) =>
    addBicubicRow(sheet, (pixel + 0.5) * step + reach * tx, step, y + reach * ty, 1, near, n, offset),
  );
  addInRuns(part.x, part.width, far, (pixel, n, offset) =>
    addBicubicRow(sheet, (pixel + 0.5) * step - reach * tx, step, y - reach * ty, 1, far, n, offset),
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

/** How the chain lines are lit and lie at each pixel of a row: the same for all rows. */
function chainRow({ wires, towards }: DrawnPaper, band: Band, part: HomePart) {
  const slope = new Float32Array(part.width);
  const height = new Float32Array(part.width);
  if (wires.laidPerMm > 0) {
    for (let k = 0; k < part.width; k++) {
      const chain = (part.x + k + 0.5) * band.mmPerPixelX * wires.chainsPerMm;
      const step = Math.floor((chain - Math.floor(chain)) * CHAIN_STEPS);
      slope[k] = wires.chainSlope[step] * towards[0];
      height[k] = wires.chainHeight[step];
    }
  }
  return { slope, height };
}

/** One turn of a laid line, in steps. */
const WAVE_STEPS = 512;
const WAVE = Float32Array.from({ length: WAVE_STEPS }, (_, k) => Math.cos((2 * Math.PI * k) / WAVE_STEPS));
/** Laid lines are wires beaten by hand: they stray by this share of the clouds, in lines. */
const LAID_STRAYING = 0.9;
/** How much darker a hollow one deviation deep is for being a hollow. */
const HOLLOW = 0.018;
/** How much more paint a hollow one deviation deep holds at granulation 1. */
const SETTLING = 0.5;
/** Laid lines hold paint like a hollow of so many deviations. */
const LAID_SETTLING = 0.5;

function lightRow(
  model: DrawnPaper,
  { near, far, clouds, grain, speckle }: Rows,
  at: number,
  y: number,
  chains: ReturnType<typeof chainRow>,
  layer: PaperLayer,
  to: number,
  width: number,
): void {
  const { amplitude, reach, raking, towards, wires, laidHeight, chainShare, hollows, mean } = model;
  const perDifference = (-amplitude * raking) / (2 * reach);
  const isLaid = laidHeight > 0;
  const turns = wires.laidPerMm * WAVE_STEPS;
  const laidSlope = 2 * Math.PI * wires.laidPerMm * laidHeight * towards[1] * raking;
  const chainSlope = -laidHeight * raking * chainShare;
  for (let k = 0; k < width; k++) {
    const up = near[at + k];
    const down = far[at + k];
    const lie = 1 + clouds[at + k];
    let facing = perDifference * (up - down) * lie + grain[at + k];
    let height = 0.5 * (up + down) * lie;
    if (isLaid) {
      const line = (y * turns + LAID_STRAYING * WAVE_STEPS * clouds[at + k]) | 0;
      facing += laidSlope * WAVE[(line - WAVE_STEPS / 4) & (WAVE_STEPS - 1)] + chainSlope * chains.slope[k];
      height += LAID_SETTLING * (WAVE[line & (WAVE_STEPS - 1)] + chains.height[k]);
    }
    if (layer.shade) layer.shade[to + k] = Math.max(0, mean * returned(facing) * (1 + HOLLOW * height));
    if (layer.load) layer.load[to + k] = Math.max(0, 1 - SETTLING * hollows * height + speckle[at + k]);
  }
}

/** How much lighter or darker a fibre's flanks are, how much darker it is all over, and how much paint it takes or sheds. */
const FIBRE_LIGHT = 1.1;
const FIBRE_TONE = 0.12;
const FIBRE_SHED = 0.35;

function addFibres(model: DrawnPaper, band: Band, part: HomePart, layer: PaperLayer): void {
  drawFibres(model.fibres, model, { ...band, ...part }, model.towards, (pixel, cover, facing) => {
    const row = Math.floor(pixel / part.width);
    const to = part.at + row * band.width + pixel - row * part.width;
    if (layer.shade) layer.shade[to] *= 1 + cover * (FIBRE_LIGHT * facing - FIBRE_TONE);
    if (layer.load) layer.load[to] *= 1 - FIBRE_SHED * cover * model.granulation;
  });
}
