import {
  addFractalRow,
  addInRuns,
  type Band,
  type FractalNoise,
  fractalOnPixels,
  fractalVariance,
  type HomePart,
  homeParts,
  runLength,
  type TextureLayer,
} from 'tenter';
import { type Drag, dragRow, dragsIn } from './drag.ts';
import type { BrushModel, TrackTables } from './model.ts';

/** How softly paint ends at its edges, in standard deviations of the tooth. */
const SOFTNESS = 0.16;

/** How much the paint under the strokes gathers in the paper's grain: share per standard deviation. */
const STAIN = 0.2;

/** mm of a surface below that count as one standard deviation of the tooth: a cold-pressed paper's own. */
const RELIEF_DEVIATION = 0.028;
/** Deviations beyond which it makes no difference how high or low the surface is. */
const MOST_RELIEF = 4;

/** @param below The surface that earlier steps have raised; the brush meets its tops and misses its hollows. */
export function paintBrush(
  model: BrushModel,
  band: Band,
  layer: TextureLayer<'load'>,
  below?: TextureLayer<'relief'>,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const tooth = fractalOnPixels(model.tooth, mmPerPixelX, mmPerPixelY);
  const tables = tablesFor(model.levels, Math.sqrt(mmPerPixelX * mmPerPixelY));
  const hidden = 1 - fractalVariance(tooth) / fractalVariance(model.tooth);
  const softness = Math.sqrt(SOFTNESS ** 2 + tables.lost + model.roughness ** 2 * hidden);
  const row = new Float32Array(runLength(band.width));
  for (const part of homeParts(band, model.lattice)) {
    const drags = dragsIn(model, tables, part, band, softness);
    for (let j = 0; j < part.height; j++) {
      paintRow(model, tooth, softness, drags, part, j, band, row, layer.load, below?.relief);
    }
  }
}

function paintRow(
  model: BrushModel,
  tooth: FractalNoise,
  softness: number,
  drags: readonly Drag[],
  part: HomePart,
  j: number,
  band: Band,
  row: Float32Array,
  load: Float32Array,
  relief?: Float32Array,
): void {
  const { mmPerPixelX } = band;
  const y = (part.y + j + 0.5) * band.mmPerPixelY;
  const gain = model.roughness / softness;
  const from = addInRuns(part.x, part.width, row, (pixel, count, offset) =>
    addFractalRow(tooth, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, gain, row, count, offset),
  );
  const at = part.at + j * band.width;
  if (relief) addRelief(relief, at, gain, row, from, part.width);
  const grain = STAIN * model.underpaint * softness;
  for (let i = 0; i < part.width; i++) load[at + i] = Math.max(0, model.underpaint + grain * row[from + i]);
  for (const drag of drags) dragRow(drag, y, part.x, part.width, row, from, load, at);
}

/** Adds the surface below to the grain of the paper. */
function addRelief(
  relief: Float32Array,
  at: number,
  gain: number,
  row: Float32Array,
  from: number,
  count: number,
): void {
  for (let i = 0; i < count; i++) {
    const deviations = relief[at + i] / RELIEF_DEVIATION;
    row[from + i] += gain * Math.max(-MOST_RELIEF, Math.min(MOST_RELIEF, deviations));
  }
}

/** The finest tables whose columns are not much narrower than a pixel. */
function tablesFor(levels: readonly TrackTables[], mmPerPixel: number): TrackTables {
  let k = 0;
  while (k + 1 < levels.length && levels[k + 1].across <= 0.8 * mmPerPixel) k++;
  return levels[k];
}
