import type { Frame } from '../../colour/frame.ts';
import { fullSample, linearTable } from '../../colour/samples.ts';
import { byteOfLinear } from '../../colour/srgb.ts';
import { tilePixelFinder } from '../../repeat/fold.ts';
import type { Grid } from '../../repeat/grid.ts';

/** Samples averaged along each side of a pixel. */
const MOST_TAPS = 4;

/**
 * A window onto the cloth: any part of the plane that a print repeats over, opaque over white, averaged in linear light.
 *
 * @param part mm of the plane; its left upper corner may lie anywhere.
 * @param width Pixels of the window; so is `height`.
 */
export function clothWindow(
  { pixels }: Frame,
  grid: Grid,
  part: { x: number; y: number; width: number; height: number },
  { width, height }: { width: number; height: number },
): { pixels: Uint8Array; width: number; height: number } {
  const find = tilePixelFinder(grid);
  const [stepX, stepY] = [part.width / grid.mmPerPixelX / width, part.height / grid.mmPerPixelY / height];
  const [firstX, firstY] = [part.x / grid.mmPerPixelX, part.y / grid.mmPerPixelY];
  const taps = Math.min(MOST_TAPS, Math.max(1, Math.ceil(Math.max(stepX, stepY) - 1e-6)));
  const [linear, full] = [linearTable(pixels), fullSample(pixels)];
  const out = new Uint8Array(4 * width * height).fill(255);
  const sum = [0, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      sum.fill(0);
      for (let tap = 0; tap < taps * taps; tap++) {
        const across = firstX + (x + ((tap % taps) + 0.5) / taps) * stepX;
        const down = firstY + (y + (Math.floor(tap / taps) + 0.5) / taps) * stepY;
        const at = 4 * find(Math.floor(across + 1e-9), Math.floor(down + 1e-9));
        const cover = pixels[at + 3] / full;
        for (let channel = 0; channel < 3; channel++)
          sum[channel] += 1 - cover + cover * linear[pixels[at + channel]];
      }
      const to = 4 * (y * width + x);
      for (let channel = 0; channel < 3; channel++)
        out[to + channel] = byteOfLinear(sum[channel] / (taps * taps));
    }
  }
  return { pixels: out, width, height };
}
