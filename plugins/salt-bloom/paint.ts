import { addBicubicRow, addFractalRow, type Band, fractalOnPixels, type TextureLayer } from 'tenter';
import type { SaltModel } from './model.ts';

/** Part of the load by which the deepest hollow of the paper holds more, per deviation, at granulation 1. */
const SETTLING = 0.1;

/** Beyond this share of the load the first order is no longer to be trusted. */
const MOST_FRAY = 0.3;

/**
 * The load is rounded to 1 / 65536: the last bits of a sum depend on where a band
 * begins, and copies of a pixel shall be the same number.
 */
const LEVELS = 65536;

/** Fills the load of a band. */
export function paintSalt(model: SaltModel, band: Band, layer: TextureLayer<'load'>): void {
  const { mmPerPixelX: stepX, mmPerPixelY: stepY, width } = band;
  const strayX = fractalOnPixels(model.paper.strayX, stepX, stepY);
  const strayY = fractalOnPixels(model.paper.strayY, stepX, stepY);
  const teeth = model.paper.teeth.map((tooth) => fractalOnPixels(tooth, stepX, stepY));
  const across = new Float64Array(width);
  const down = new Float64Array(width);
  const hollow = new Float64Array(width);
  const x0 = (band.x + 0.5) * stepX;
  let here = new Float64Array(width + 1);
  let below = new Float64Array(width + 1);
  drawLoad(model, band, 0, here);
  for (let j = 0; j < band.height; j++) {
    const y = (band.y + j + 0.5) * stepY;
    drawLoad(model, band, j + 1, below);
    across.fill(0);
    down.fill(0);
    hollow.fill(0);
    addFractalRow(strayX, x0, stepX, y, 1 / stepX, across, width);
    addFractalRow(strayY, x0, stepX, y, 1 / stepY, down, width);
    for (const tooth of teeth)
      addFractalRow(tooth, x0, stepX, y, SETTLING * model.granulation, hollow, width);
    settle(here, below, across, down, hollow, layer.load.subarray(j * width, (j + 1) * width));
    [here, below] = [below, here];
  }
}

/** The simulated load along row j of the band, and one pixel further. */
function drawLoad({ load }: SaltModel, band: Band, j: number, row: Float64Array): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  row.fill(0);
  const y = (band.y + j + 0.5) * mmPerPixelY;
  addBicubicRow(load, (band.x + 0.5) * mmPerPixelX, mmPerPixelX, y, 1, row, row.length);
}

/**
 * The load looked up astray by (across, down) pixels, to first order: load + slope * way. So an edge
 * frays as finely as the noise, at a fifth of the cost of a look-up of its own.
 */
function settle(
  here: Float64Array,
  below: Float64Array,
  across: Float64Array,
  down: Float64Array,
  hollow: Float64Array,
  to: Float32Array,
): void {
  for (let i = 0; i < to.length; i++) {
    const load = here[i];
    const most = MOST_FRAY * load;
    const stray = (here[i + 1] - load) * across[i] + (below[i] - load) * down[i];
    const frayed = load + Math.max(-most, Math.min(most, stray));
    to[i] = Math.max(0, Math.round(frayed * (1 + hollow[i]) * LEVELS) / LEVELS);
  }
}
