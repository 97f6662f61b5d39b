import { byteOfLinear, LINEAR_OF_BYTE } from '../../colour/srgb.ts';
import { tilePixelFinder } from '../../repeat/fold.ts';
import type { SmallPicture } from './small-picture.ts';

/** Samples along each side of a pixel: places are true to a fifth of a pixel, whatever the tile's size. */
export const TAPS = 3;

/**
 * A picture in repeat through a square window whose upper left corner is the tile's. Every sample is
 * looked up by its place in mm, so the scale is exact although a small tile has a whole number of pixels.
 *
 * @param side        Of the window, px.
 * @param pixelsPerMm Of the window.
 * @returns RGBA, opaque.
 */
export function layWindow(
  { pixels, grid }: SmallPicture,
  side: number,
  pixelsPerMm: number,
): Uint8ClampedArray {
  const find = tilePixelFinder(grid);
  const columns = samplePlaces(side, pixelsPerMm, grid.mmPerPixelX);
  const rows = samplePlaces(side, pixelsPerMm, grid.mmPerPixelY);
  const window = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      let [red, green, blue] = [0, 0, 0];
      for (let row = y * TAPS; row < (y + 1) * TAPS; row++) {
        for (let column = x * TAPS; column < (x + 1) * TAPS; column++) {
          const from = find(columns[column], rows[row]) * 3;
          red += LINEAR_OF_BYTE[pixels[from]];
          green += LINEAR_OF_BYTE[pixels[from + 1]];
          blue += LINEAR_OF_BYTE[pixels[from + 2]];
        }
      }
      const to = (y * side + x) * 4;
      window[to] = byteOfLinear(red / TAPS ** 2);
      window[to + 1] = byteOfLinear(green / TAPS ** 2);
      window[to + 2] = byteOfLinear(blue / TAPS ** 2);
    }
  }
  return window;
}

/** The tile's pixel under each sample along one side of the window. */
function samplePlaces(side: number, pixelsPerMm: number, mmPerPixel: number): Int32Array {
  return Int32Array.from({ length: side * TAPS }, (_, index) =>
    Math.floor((index + 0.5) / TAPS / pixelsPerMm / mmPerPixel),
  );
}
