import { type Band, openWashRows, STRIP, stripsOf, type TextureLayer } from 'tenter';
import type { FlatWashModel } from './prepare.ts';

/** Fills the planes of a band. */
export function paintFlatWash(
  { wash, lattice, hues: [red, green, blue] }: FlatWashModel,
  band: Band,
  { load, parting }: TextureLayer<'load' | 'parting'>,
): void {
  const { mmPerPixelX, mmPerPixelY } = band;
  const rows = openWashRows(wash, mmPerPixelX, mmPerPixelY, STRIP);
  for (const { x0, y, skip, count, height, at } of stripsOf(band, lattice)) {
    for (let j = 0; j < height; j++) {
      rows.row(x0, (y + j + 0.5) * mmPerPixelY, count);
      const first = at + j * band.width;
      // A layer holds only the planes that were asked for.
      load?.set(rows.load.subarray(skip, count), first);
      if (!parting) continue;
      for (let i = skip, k = 3 * first; i < count; i++, k += 3) {
        const parted = rows.parted[i];
        parting[k] = red * parted;
        parting[k + 1] = green * parted;
        parting[k + 2] = blue * parted;
      }
    }
  }
}
