import { byteOfLinear, LINEAR_OF_BYTE } from '../src/colour/srgb.ts';
import type { Picture } from './artwork/tile.ts';

/**
 * A picture at another pixel count: every new pixel has the mean light of the area it covers, as the eye
 * has from further away. The picture is taken as opaque.
 */
export function shrink(picture: Picture, width: number, height: number): Picture {
  if (width === picture.width && height === picture.height) return picture;
  const columns = spansOf(picture.width, width);
  const rows = spansOf(picture.height, height);
  const pixels = new Uint8Array(width * height * 4).fill(255);
  const row = new Float32Array(width * 3);
  const sum = new Float32Array(width * 3);
  for (let y = 0; y < height; y++) {
    sum.fill(0);
    for (const { from, share } of rows[y]) {
      shrinkRow(picture, from, columns, row);
      for (let index = 0; index < sum.length; index++) sum[index] += share * row[index];
    }
    for (let x = 0; x < width; x++) {
      for (let channel = 0; channel < 3; channel++) {
        pixels[(y * width + x) * 4 + channel] = byteOfLinear(sum[x * 3 + channel]);
      }
    }
  }
  return { pixels, width, height };
}

/** An old sample and its share in a new one. */
interface Part {
  readonly from: number;
  readonly share: number;
}

function spansOf(before: number, after: number): Part[][] {
  const step = before / after;
  return Array.from({ length: after }, (_, index) => {
    const [start, end] = [index * step, (index + 1) * step];
    const parts: Part[] = [];
    for (let from = Math.floor(start); from < end && from < before; from++) {
      const share = (Math.min(end, from + 1) - Math.max(start, from)) / step;
      if (share > 1e-9) parts.push({ from, share });
    }
    return parts;
  });
}

function shrinkRow(picture: Picture, y: number, columns: readonly Part[][], row: Float32Array): void {
  const start = y * picture.width * 4;
  columns.forEach((parts, x) => {
    let [red, green, blue] = [0, 0, 0];
    for (const { from, share } of parts) {
      const pixel = start + from * 4;
      red += share * LINEAR_OF_BYTE[picture.pixels[pixel]];
      green += share * LINEAR_OF_BYTE[picture.pixels[pixel + 1]];
      blue += share * LINEAR_OF_BYTE[picture.pixels[pixel + 2]];
    }
    row[x * 3] = red;
    row[x * 3 + 1] = green;
    row[x * 3 + 2] = blue;
  });
}
