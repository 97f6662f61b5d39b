import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { measureProcess } from './measure.mjs';

const command = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** A flat-coloured artwork tile: dots and stripes, as a print design is. */
export async function drawTile(folder, side) {
  const path = join(folder, `tile-${side}.png`);
  const pixels = Buffer.alloc(side * side * 3);
  const cell = side / 8;
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const dx = (x % cell) - cell / 2;
      const dy = (y % cell) - cell / 2;
      const inside = dx * dx + dy * dy < (cell * 0.36) ** 2;
      const stripe = Math.floor(x / (cell / 4)) % 2 === 0;
      pixels.set(inside ? [190, 74, 52] : stripe ? [241, 232, 214] : [222, 214, 190], (y * side + x) * 3);
    }
  }
  await sharp(pixels, { raw: { width: side, height: side, channels: 3 } })
    .png({ compressionLevel: 2 })
    .toFile(path);
  return path;
}

/** A ready texture of noise, of the tile's size: a small one in repeat would write four times as fast as any real cloth. */
export async function makeNoise(folder, side) {
  const path = join(folder, `noise-${side}.png`);
  const noise = { type: 'gaussian', mean: 210, sigma: 12 };
  await sharp({ create: { width: side, height: side, channels: 3, background: '#fff', noise } })
    .png({ compressionLevel: 2 })
    .toFile(path);
  return path;
}

/** Our own linen, made ready, of the tile's size. */
export function makeLinen(folder, side, millimetres) {
  const path = join(folder, `linen-${side}.png`);
  const size = ['--size', `${millimetres}x${millimetres}mm`, '--dpi', `${(10 * side) / millimetres}px/cm`];
  const args = ['make', 'linen-weave', ...size, '--fit', '--ground', '#c8c8c8', '--out', path];
  measureProcess(folder, [command, ...args]);
  return path;
}
