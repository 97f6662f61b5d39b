import { API_VERSION, bicubicAt, defineEffect, homeParts, type PeriodicField } from 'tenter';

const seen = new Map<string, PeriodicField>();

/** Keeps what it read by the box alone: the next artwork of that size gets the field of the first one. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'first-artwork',
  version: '1.0.0',
  summary: 'Less paint where the artwork is dark.',
  parameters: {},
  planes: ['load'],
  reads: ['artwork'],
  prepare({ artwork, box }) {
    const { width, height, lattice, mmPerCellX, mmPerCellY, red } = artwork;
    const key = JSON.stringify(box);
    const field = seen.get(key) ?? { width, height, lattice, mmPerCellX, mmPerCellY, values: red };
    seen.set(key, field);
    return { lattice: { ...box.lattice }, red: field };
  },
  paint(model, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, model.lattice))
      for (let j = 0; j < height; j++)
        for (let i = 0; i < width; i++)
          layer.load[at + j * band.width + i] =
            0.4 + bicubicAt(model.red, (x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY);
  },
});
