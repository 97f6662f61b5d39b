import { type Band, openWashRows, STRIP, stripsOf, type TextureLayer } from 'tenter';
import type { FlatWashModel } from './prepare.ts';

/** Fills the planes of a band. */
export function paintFlatWash(model: FlatWashModel, band: Band, layer: TextureLayer<'load'>): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const rows = openWashRows(model.wash, mmPerPixelX, mmPerPixelY, STRIP);
  for (const { x0, y, skip, count, height, at } of stripsOf(band, model.lattice)) {
    for (let j = 0; j < height; j++) {
      rows.row(x0, (y + j + 0.5) * mmPerPixelY, count);
      layer.load?.set(rows.load.subarray(skip, count), at + j * band.width);
    }
  }
}
