import { API_VERSION, type Artwork, bicubicAt, defineEffect, homeParts, type Lattice } from 'tenter';

/** Reads the artwork's cells across and down by themselves: over a drop or brick they are others beyond the edge. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'unwrapped-artwork',
  version: '1.0.0',
  summary: 'Less paint where the artwork is dark.',
  parameters: {},
  planes: ['load'],
  reads: ['artwork'],
  prepare: ({ artwork, box }) => ({ lattice: straight(box.lattice), red: redOf(artwork) }),
  paint(model, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, model.lattice))
      for (let j = 0; j < height; j++)
        for (let i = 0; i < width; i++)
          layer.load[at + j * band.width + i] =
            0.4 + bicubicAt(model.red, (x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY);
  },
});

function redOf({ width, height, lattice, mmPerCellX, mmPerCellY, red }: Artwork) {
  return { width, height, lattice: straight(lattice), mmPerCellX, mmPerCellY, values: red };
}

function straight({ ax, by }: Lattice): Lattice {
  return { ax, ay: 0, bx: 0, by };
}
