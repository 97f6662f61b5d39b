import { join } from 'node:path';
import sharp from 'sharp';

/** A flat-coloured artwork tile: dots and stripes, as a print design is. */
export async function makeTile(folder, side) {
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

/** A ready grey texture of the tile's size: a small one in repeat would write four times as fast as any real cloth. */
export async function makeTexture(folder, side) {
  const path = join(folder, `texture-${side}.png`);
  const noise = { type: 'gaussian', mean: 210, sigma: 12 };
  await sharp({ create: { width: side, height: side, channels: 3, background: '#fff', noise } })
    .png({ compressionLevel: 2 })
    .toFile(path);
  return path;
}
