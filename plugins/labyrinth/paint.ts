import {
  addBicubicRow,
  addFractalRow,
  type Band,
  fractalOnPixels,
  STRIP,
  type Strip,
  stripsOf,
  type TextureLayer,
} from 'tenter';
import { edgeTable, loadAt } from './edge.ts';
import type { LabyrinthModel } from './model.ts';

type Layer = TextureLayer<'load' | 'shade'>;

/** Fills the planes of a band: the level is smooth, and its edge is cut here, at the density that is asked for. */
export function paintLabyrinth(model: LabyrinthModel, band: Band, layer: Layer): void {
  for (const strip of stripsOf(band, model.lattice)) paintStrip(model, band, strip, layer);
}

function paintStrip(model: LabyrinthModel, band: Band, strip: Strip, layer: Layer): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const { x0, count, skip } = strip;
  const fray = fractalOnPixels(model.fray, mmPerPixelX, mmPerPixelY);
  const half = Math.min(mmPerPixelX, 0.25 * model.level.mmPerCellX) / 2;
  const rows = Array.from({ length: 5 }, () => new Float64Array(STRIP));
  const [here, left, right, above, below] = rows;
  const stray = new Float64Array(STRIP);
  const edge = edgeTable(model, Math.sqrt(mmPerPixelX * mmPerPixelY));
  for (let j = 0, at = strip.at; j < strip.height; j++, at += band.width) {
    const y = (strip.y + j + 0.5) * mmPerPixelY;
    const level = (row: Float64Array, dx: number, dy: number) =>
      addBicubicRow(model.level, x0 + dx, mmPerPixelX, y + dy, 1, row.fill(0), count);
    level(here, 0, 0);
    level(left, -half, 0);
    level(right, half, 0);
    level(above, 0, -half);
    level(below, 0, half);
    addFractalRow(fray, x0, mmPerPixelX, y, 1, stray.fill(0), count);
    for (let i = skip, k = at; i < count; i++, k++) {
      const slopeX = (right[i] - left[i]) / (2 * half);
      const slopeY = (below[i] - above[i]) / (2 * half);
      const slope = Math.sqrt(slopeX * slopeX + slopeY * slopeY);
      const depth = (here[i] - model.cut) / Math.max(slope, model.leastSlope) + stray[i];
      layer.load[k] = loadAt(edge, depth);
      // A layer holds only the planes that were asked for; the light falls from the upper left.
      if (layer.shade) layer.shade[k] = Math.max(0, 1 - model.relief * (slopeX + slopeY));
    }
  }
}
