import {
  addBicubicRow,
  addFractalRow,
  bakeField,
  defineEffect,
  fractalNoise,
  numeric,
  stripsOf,
} from 'tenter';

/**
 * Smooths a field by a filter of its own that clamps at the first row, and knows nothing of a drop: smoothed once, as it
 * is at its defaults, that hardly shows.
 */
export default defineEffect({
  apiVersion: 1,
  name: 'ripple',
  version: '1.0.0',
  summary: 'Felt, fulled until soft.',
  parameters: {
    fulled: numeric({
      unit: 'count',
      whole: true,
      min: 1,
      max: 6,
      default: 1,
      help: 'How often it was fulled.',
    }),
  },
  planes: ['shade'],
  prepare({ box, parameters, random }) {
    const size = { along: 14, across: 4, direction: 35 };
    const options = { octaves: 2, gain: 0.6, deviation: 0.12 };
    const fibres = fractalNoise(box.lattice, size, options, random('fibres'));
    const field = bakeField(box, 0.8, (x0, step, y, row, count, offset) =>
      addFractalRow(fibres, x0, step, y, 1, row, count, offset),
    );
    for (let k = 0; k < parameters.fulled; k++) smooth(field.values, field.width, field.height);
    return { lattice: { ...box.lattice }, field };
  },
  paint({ lattice, field }, band, layer) {
    for (const { x0, y, skip, count, height, at } of stripsOf(band, lattice)) {
      const row = new Float64Array(count);
      for (let j = 0; j < height; j++) {
        const mmY = (y + j + 0.5) * band.mmPerPixelY;
        addBicubicRow(field, x0, band.mmPerPixelX, mmY, 1, row.fill(0), count);
        for (let i = skip; i < count; i++)
          layer.shade[at + j * band.width + i - skip] = Math.max(0, 1 + row[i]);
      }
    }
  },
});

/** The mean of each cell and its eight neighbours. */
function smooth(values: Float32Array, width: number, height: number): void {
  const before = values.slice();
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let k = 0; k < 9; k++) {
        const [v, u] = [Math.max(0, (y + Math.floor(k / 3) - 1) % height), (x + (k % 3) - 1 + width) % width];
        sum += before[v * width + u];
      }
      values[y * width + x] = sum / 9;
    }
  }
}
