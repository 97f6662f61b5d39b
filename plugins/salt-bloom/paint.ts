import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type TextureLayer,
} from 'tenter';
import type { SaltModel } from './model.ts';

export type Planes = 'load' | 'shift' | 'bleed';

/** Part of the load by which the deepest hollow of the paper holds more, per deviation, at granulation 1. */
const SETTLING = 0.08;
/** Share of the settling that follows the way in which wet edges stray, per mm. */
const STRAYED = 5;

/** Beyond this share of the load the first order is no longer to be trusted. */
const MOST_FRAY = 0.3;
/** How far the finest fray of a motif strays for each mm that it bleeds, beside the stray of the paper. */
const FRAY = 4;
const MOST_FRAYED = 2.4;

/**
 * What is painted is rounded to 1 / 65536: the last bits of a sum depend on where a band
 * begins, and copies of a pixel shall be the same number.
 */
const LEVELS = 65536;

/** Rows of numbers that a band works in. */
interface Rows {
  readonly across: Float64Array;
  readonly down: Float64Array;
  readonly hollow: Float64Array;
  readonly settling: Float64Array;
}

/** Fills the planes of a band. */
export function paintSalt(model: SaltModel, band: Band, layer: TextureLayer<Planes>): void {
  const { mmPerPixelX: stepX, mmPerPixelY: stepY, width } = band;
  const strayX = fractalOnPixels(model.paper.strayX, stepX, stepY);
  const strayY = fractalOnPixels(model.paper.strayY, stepX, stepY);
  const teeth = model.paper.teeth.map((tooth) => fractalOnPixels(tooth, stepX, stepY));
  const row = () => new Float64Array(width);
  const rows: Rows = { across: row(), down: row(), hollow: row(), settling: row() };
  const x0 = (band.x + 0.5) * stepX;
  let here = new Float64Array(width + 1);
  let below = new Float64Array(width + 1);
  drawLoad(model, band, 0, here);
  for (let j = 0; j < band.height; j++) {
    const y = (band.y + j + 0.5) * stepY;
    drawLoad(model, band, j + 1, below);
    addNoise(strayX, x0, stepX, y, rows.across.fill(0));
    addNoise(strayY, x0, stepX, y, rows.down.fill(0));
    rows.hollow.fill(0);
    for (const tooth of teeth) addNoise(tooth, x0, stepX, y, rows.hollow);
    addBilinearRow(model.settling, x0, stepX, y, SETTLING, rows.settling.fill(0), width);
    settle(here, below, rows, 1 / stepX, 1 / stepY, layer.load.subarray(j * width, (j + 1) * width));
    if (layer.bleed) runRow(model, x0, stepX, y, rows, j * width, layer);
    [here, below] = [below, here];
  }
}

function addNoise(noise: FractalNoise, x0: number, step: number, y: number, row: Float64Array): void {
  addFractalRow(noise, x0, step, y, 1, row, row.length);
}

/** The simulated load along row j of the band, and one pixel further. */
function drawLoad({ load }: SaltModel, band: Band, j: number, row: Float64Array): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  row.fill(0);
  const y = (band.y + j + 0.5) * mmPerPixelY;
  addBicubicRow(load, (band.x + 0.5) * mmPerPixelX, mmPerPixelX, y, 1, row, row.length);
}

/**
 * The load looked up astray by (across, down) mm, to first order: load + slope * way. So an edge frays as
 * finely as the noise, at a fifth of the cost of a look-up of its own.
 */
function settle(
  here: Float64Array,
  below: Float64Array,
  { across, down, hollow, settling }: Rows,
  perX: number,
  perY: number,
  to: Float32Array,
): void {
  for (let i = 0; i < to.length; i++) {
    const load = here[i];
    const most = MOST_FRAY * load;
    const stray = (here[i + 1] - load) * across[i] * perX + (below[i] - load) * down[i] * perY;
    const frayed = load + (stray > most ? most : Math.max(stray, -most));
    const depth = 1 + settling[i] * (hollow[i] + STRAYED * (across[i] - down[i]));
    const laid = Math.floor(frayed * depth * LEVELS + 0.5) / LEVELS;
    to[i] = Math.max(laid, 0);
  }
}

/** Bleed and shift along a row; an edge frays as finely as the paper lets it stray. */
function runRow(
  { running }: SaltModel,
  x0: number,
  step: number,
  y: number,
  { across, down, hollow: fromX, settling: fromY }: Rows,
  first: number,
  { bleed: spread, shift, width }: TextureLayer<Planes>,
): void {
  const bleed = new Float64Array(width);
  addBilinearRow(running.bleed, x0, step, y, 1, bleed, width);
  addBilinearRow(running.fromX, x0, step, y, 1, fromX.fill(0), width);
  addBilinearRow(running.fromY, x0, step, y, 1, fromY.fill(0), width);
  for (let i = 0, k = first; i < width; i++, k++) {
    const here = Math.max(bleed[i], 0);
    const fray = Math.min(FRAY * here, MOST_FRAYED);
    spread[k] = Math.floor(here * LEVELS + 0.5) / LEVELS;
    shift[2 * k] = Math.floor((fromX[i] + fray * across[i]) * LEVELS + 0.5) / LEVELS;
    shift[2 * k + 1] = Math.floor((fromY[i] + fray * down[i]) * LEVELS + 0.5) / LEVELS;
  }
}
