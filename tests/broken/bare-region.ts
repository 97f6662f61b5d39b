import { API_VERSION, defineEffect, homeParts, numeric } from 'tenter';

/** Specks numbered in 16 bits, as a large box exceeds where they are small: those from the 65,536th on are never drawn. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'bare-region',
  version: '1.0.0',
  summary: 'Specks in rows.',
  planes: ['shade'],
  parameters: {
    apart: numeric({ unit: 'mm', min: 2, max: 20, default: 5, help: 'From one speck to the next.' }),
  },
  prepare({ box, parameters, random }) {
    const columns = Math.max(1, Math.round(box.width / parameters.apart));
    const rows = 2 * Math.max(1, Math.round(box.height / parameters.apart / 2));
    const stream = random('tones');
    const tones = Float32Array.from({ length: columns * rows }, () => stream.between(0.4, 0.9));
    const order = Uint16Array.from(tones, (_, speck) => speck);
    const shown = new Float32Array(tones.length).fill(1);
    for (const speck of order) shown[speck] = tones[speck];
    return {
      home: { ...box.lattice },
      columns,
      rows,
      shown,
      across: columns / box.width,
      down: rows / box.height,
    };
  },
  paint({ home, columns, rows, shown, across, down }, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const column = Math.floor((x + i + 0.5) * band.mmPerPixelX * across) % columns;
          const row = Math.floor((y + j + 0.5) * band.mmPerPixelY * down) % rows;
          layer.shade[at + j * band.width + i] = shown[row * columns + column];
        }
      }
    }
  },
});
