import {
  addBicubicRow,
  addBilinearRow,
  addFractalRow,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  type GrainRows,
  openGrain,
  STRIP,
  type Strip,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import type { SaltModel } from './model.ts';
import type { Running } from './running.ts';

export type Planes = 'load' | 'parting' | 'shift' | 'bleed';

/** Part of the load by which the deepest hollow of the paper holds more, per deviation, at granulation 1. */
const SETTLING = 0.11;

/** Beyond this share of the load the first order is no longer to be trusted. */
const MOST_FRAY = 0.3;
/** How far the finest fray of a motif strays for each mm that it bleeds, beside the stray of the paper. */
const FRAY = 4;
const MOST_FRAYED = 2.4;

/** What a strip is painted with. */
interface Brush {
  readonly model: SaltModel;
  readonly strayX: FractalNoise;
  readonly strayY: FractalNoise;
  readonly grain: GrainRows;
  readonly across: Float64Array;
  readonly down: Float64Array;
  readonly hollow: Float64Array;
  readonly settling: Float64Array;
  readonly bleed: Float64Array;
  readonly heavy: Float64Array;
}

/** Fills the planes of a band. */
export function paintSalt(model: SaltModel, band: Band, layer: TextureLayer<Planes>): void {
  const fine = (noise: FractalNoise) => fractalOnPixels(noise, band.mmPerPixelX, band.mmPerPixelY);
  const row = () => new Float64Array(STRIP);
  const brush: Brush = {
    model,
    strayX: fine(model.paper.strayX),
    strayY: fine(model.paper.strayY),
    grain: openGrain(model.paper.grain, band.mmPerPixelX, band.mmPerPixelY, STRIP),
    across: row(),
    down: row(),
    hollow: row(),
    settling: row(),
    bleed: row(),
    heavy: row(),
  };
  for (const strip of stripsOf(band, model.lattice)) paintStrip(brush, band, strip, layer);
}

function paintStrip(brush: Brush, band: Band, strip: Strip, layer: TextureLayer<Planes>): void {
  const { mmPerPixelX: stepX, mmPerPixelY: stepY } = band;
  const { x0, count } = strip;
  const { model, across, down, hollow, settling } = brush;
  const addNoise = (noise: FractalNoise, y: number, row: Float64Array) =>
    addFractalRow(noise, x0, stepX, y, 1, row, count);
  // The simulated load along a row, and one pixel further.
  const drawLoad = (y: number, row: Float64Array) =>
    addBicubicRow(model.load, x0, stepX, y, 1, row.fill(0), count + 1);
  let here = new Float64Array(count + 1);
  let below = new Float64Array(count + 1);
  drawLoad((strip.y + 0.5) * stepY, here);
  for (let j = 0, at = strip.at; j < strip.height; j++, at += band.width) {
    const y = (strip.y + j + 0.5) * stepY;
    drawLoad((strip.y + j + 1.5) * stepY, below);
    addNoise(brush.strayX, y, across.fill(0));
    addNoise(brush.strayY, y, down.fill(0));
    brush.grain.row(x0, y, count);
    hollow.set(count < STRIP ? brush.grain.settled.subarray(0, count) : brush.grain.settled);
    addBilinearRow(model.settling, x0, stepX, y, SETTLING, settling.fill(0), count);
    settle(here, below, brush, 1 / stepX, 1 / stepY, strip.skip, layer.load, at);
    if (layer.parting && model.heavy) {
      addBilinearRow(model.heavy, x0, stepX, y, 1, brush.heavy.fill(0), count);
      partRow(brush, here, strip, layer, at);
    }
    if (layer.bleed && model.running) runRow(model.running, brush, stepX, y, strip, layer, at);
    [here, below] = [below, here];
  }
}

/**
 * The load looked up astray by (across, down) mm, to first order: load + slope * way. So an edge frays as
 * finely as the noise, at a fifth of the cost of a look-up of its own.
 */
function settle(
  here: Float64Array,
  below: Float64Array,
  { across, down, hollow, settling }: Brush,
  perX: number,
  perY: number,
  skip: number,
  to: Float32Array,
  at: number,
): void {
  for (let i = skip, k = at; i < here.length - 1; i++, k++) {
    const load = here[i];
    const most = MOST_FRAY * load;
    const stray = (here[i + 1] - load) * across[i] * perX + (below[i] - load) * down[i] * perY;
    const frayed = load + Math.max(-most, Math.min(most, stray));
    to[k] = Math.max(0, frayed * (1 + settling[i] * hollow[i]));
  }
}

/** How much farther heavy paint settles in the hollows than stain does, of what both settle together. */
const GRAIN = 1.1;

/** How far the hues part along a row: by what lies there, and by the grain, which heavy paint makes most of. */
function partRow(
  { heavy, hollow, settling, model: { hues } }: Brush,
  here: Float64Array,
  { skip, count }: Strip,
  { parting }: TextureLayer<Planes>,
  at: number,
): void {
  const [red, green, blue] = hues;
  for (let i = skip, k = 3 * at; i < count; i++, k += 3) {
    const grain = Math.max(-0.8, Math.min(0.8, GRAIN * settling[i] * hollow[i]));
    const parted = Math.max(0, here[i]) * (2 * heavy[i] + grain);
    parting[k] = red * parted;
    parting[k + 1] = green * parted;
    parting[k + 2] = blue * parted;
  }
}

/** Bleed and shift along a row; an edge frays as finely as the paper lets it stray. */
function runRow(
  running: Running,
  { across, down, hollow: fromX, settling: fromY, bleed }: Brush,
  step: number,
  y: number,
  { x0, skip, count }: Strip,
  { bleed: spread, shift }: TextureLayer<Planes>,
  at: number,
): void {
  addBilinearRow(running.bleed, x0, step, y, 1, bleed.fill(0), count);
  addBilinearRow(running.fromX, x0, step, y, 1, fromX.fill(0), count);
  addBilinearRow(running.fromY, x0, step, y, 1, fromY.fill(0), count);
  for (let i = skip, k = at; i < count; i++, k++) {
    const here = Math.max(0, bleed[i]);
    const fray = Math.min(FRAY * here, MOST_FRAYED);
    spread[k] = here;
    shift[2 * k] = fromX[i] + fray * across[i];
    shift[2 * k + 1] = fromY[i] + fray * down[i];
  }
}
