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

/** How much the paint under the strokes differs by its streaks and by the paper's grain: shares per deviation. */
const STREAKED = 0.3;
const STAIN = 0.03;

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
  const coat = fractalOnPixels(model.coat, mmPerPixelX, mmPerPixelY);
  const row = new Float32Array(runLength(band.width));
  const streaks = new Float32Array(runLength(band.width));
  for (const part of homeParts(band, model.lattice)) {
    const drags = dragsIn(model, tables, part, band, softness);
    for (let j = 0; j < part.height; j++) {
      layCoat(model.underpaint, coat, part, j, band, streaks, layer.load);
      paintRow(model, tooth, softness, drags, part, j, band, row, layer.load, below?.relief);
    }
  }
}

/** The coat under the strokes, along a row of a part. */
function layCoat(
  underpaint: number,
  coat: FractalNoise,
  part: HomePart,
  j: number,
  band: Band,
  streaks: Float32Array,
  load: Float32Array,
): void {
  const at = part.at + j * band.width;
  load.fill(underpaint, at, at + part.width);
  if (underpaint === 0) return;
  const { mmPerPixelX, mmPerPixelY } = band;
  const y = (part.y + j + 0.5) * mmPerPixelY;
  const from = addInRuns(part.x, part.width, streaks, (pixel, count, offset) =>
    addFractalRow(coat, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, STREAKED, streaks, count, offset),
  );
  for (let i = 0; i < part.width; i++) load[at + i] *= Math.max(0, 1 + streaks[from + i]);
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
  for (let i = 0; i < part.width; i++) load[at + i] = Math.max(0, load[at + i] + grain * row[from + i]);
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
