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

export function paintBrush(model: BrushModel, band: Band, layer: TextureLayer<'load'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const tooth = fractalOnPixels(model.tooth, mmPerPixelX, mmPerPixelY);
  const tables = tablesFor(model.levels, Math.sqrt(mmPerPixelX * mmPerPixelY));
  const hidden = 1 - fractalVariance(tooth) / fractalVariance(model.tooth);
  const softness = Math.sqrt(SOFTNESS ** 2 + tables.lost + model.roughness ** 2 * hidden);
  const row = new Float32Array(runLength(band.width));
  for (const part of homeParts(band, model.lattice)) {
    const drags = dragsIn(model, tables, part, band, softness);
    for (let j = 0; j < part.height; j++) {
      paintRow(model, tooth, softness, drags, part, j, band, row, layer.load);
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
): void {
  const { mmPerPixelX } = band;
  const y = (part.y + j + 0.5) * band.mmPerPixelY;
  const gain = model.roughness / softness;
  const from = addInRuns(part.x, part.width, row, (pixel, count, offset) =>
    addFractalRow(tooth, (pixel + 0.5) * mmPerPixelX, mmPerPixelX, y, gain, row, count, offset),
  );
  const at = part.at + j * band.width;
  const grain = STAIN * model.underpaint * softness;
  for (let i = 0; i < part.width; i++) load[at + i] = Math.max(0, model.underpaint + grain * row[from + i]);
  for (const drag of drags) dragRow(drag, y, part.x, part.width, row, from, load, at);
}

/** The finest tables whose columns are not much narrower than a pixel. */
function tablesFor(levels: readonly TrackTables[], mmPerPixel: number): TrackTables {
  let k = 0;
  while (k + 1 < levels.length && levels[k + 1].across <= 0.8 * mmPerPixel) k++;
  return levels[k];
}
