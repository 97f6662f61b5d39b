import { defineEffect, homeParts } from 'tenter';
import { ripple } from './ripple.ts';

const CELL_MM = 9;

/** A chequer by parity of the cell, in boxes that hold an odd count of cells too: there two rows of one tone meet. */
export default defineEffect({
  ...ripple,
  prepare: ({ box, random, parameters }) => ({
    home: { ...box.lattice },
    across: Math.max(1, Math.round(box.width / CELL_MM)) / box.width,
    down: Math.max(1, Math.round(box.height / CELL_MM)) / box.height,
    start: random('start').between(0.2, 0.8),
    contrast: 0.1 + parameters.height + parameters.depth + parameters.waves / 10,
  }),
  paint({ home, across, down, start, contrast }, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const column = Math.floor((x + i + 0.5) * band.mmPerPixelX * across + start);
          const row = Math.floor((y + j + 0.5) * band.mmPerPixelY * down + start);
          layer.shade[at + j * band.width + i] = (column + row) % 2 === 0 ? 1 : 1 - contrast / 4;
        }
      }
    }
  },
});
