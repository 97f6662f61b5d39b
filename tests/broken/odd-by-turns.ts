import { cellGrid, choice, defineEffect, findCells, homeParts, numeric } from 'tenter';

/** Asks for no even count of cells where an option deals dark and pale ones out by turns: by default it is sound. */
export default defineEffect({
  apiVersion: 1,
  name: 'odd-by-turns',
  version: '1.0.0',
  summary: 'Cells of a tone of their own, or dark and pale by turns.',
  parameters: {
    length: numeric({ unit: 'mm', min: 4, max: 14, default: 11, help: 'Length of a cell.' }),
    order: choice({ options: ['mixed', 'turns'], default: 'mixed', help: 'How tones are dealt out.' }),
  },
  planes: ['shade'],
  prepare({ box, parameters, random }) {
    const grid = cellGrid(box, { width: parameters.length, height: 0.7 * parameters.length });
    const [tones, start] = [random('tones'), random('start')];
    const shades = Float32Array.from({ length: grid.width * grid.height }, (_, cell) => {
      const turn = ((cell % grid.width) + Math.floor(cell / grid.width)) % 2;
      return parameters.order === 'mixed' ? tones.between(0.7, 1) : 0.72 + 0.22 * turn;
    });
    const [right, down] = [start.next() * grid.mmPerCellX, start.next() * grid.mmPerCellY];
    return { home: { ...box.lattice }, grid, shades, right, down };
  },
  paint({ home, grid, shades, right, down }, band, layer) {
    const { mmPerPixelX, mmPerPixelY } = band;
    for (const { x, y, width, height, at } of homeParts(band, home)) {
      const [cells, places] = [new Int32Array(width), new Float64Array(width)];
      for (let j = 0; j < height; j++) {
        const from = (x + 0.5) * mmPerPixelX + right;
        findCells(grid, from, mmPerPixelX, (y + j + 0.5) * mmPerPixelY + down, cells, places, width);
        for (let i = 0; i < width; i++) layer.shade[at + j * band.width + i] = shades[cells[i]];
      }
    }
  },
});
