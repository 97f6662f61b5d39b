import { uprightSize } from './decode.ts';
import { readHeader } from './header.ts';
import type { Samples } from './picture.ts';
import { colouredPieces, type ReadOptions, samplesFor } from './read.ts';

/** A grey picture that says where a step applies. */
export interface Mask {
  /** One sample per pixel, 0..255, row by row, in memory that workers can share. */
  readonly samples: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Luminance of encoded red, green and blue: luminanceToAlpha of SVG 1.1, 15.10 (feColorMatrix). */
const [RED, GREEN, BLUE] = [0.2125, 0.7154, 0.0721];

/**
 * Reads a mask as W3C CSS Masking Module Level 1 reads a luminance mask: the luminance of the
 * encoded colours, times alpha. White applies, black spares, transparent counts as black.
 *
 * @throws Fault (input) as `readPicture` does.
 */
export async function readMask(path: string, { maxPixels, route }: ReadOptions = {}): Promise<Mask> {
  const header = await readHeader(path, maxPixels);
  const { width, height } = uprightSize(header);
  const samples = samplesFor({ ...header, bits: 8 }, width * height) as Uint8Array;
  let done = 0;
  for await (const piece of colouredPieces(header, route)) {
    writeLuminance(piece, samples.subarray(done, (done += piece.length / 4)));
  }
  return { samples, width, height };
}

function writeLuminance(pixels: Samples, mask: Uint8Array): void {
  const top = 2 ** (8 * pixels.BYTES_PER_ELEMENT) - 1;
  const scale = 255 / (top * top);
  for (let from = 0, to = 0; to < mask.length; from += 4, to++) {
    const luminance = RED * pixels[from] + GREEN * pixels[from + 1] + BLUE * pixels[from + 2];
    mask[to] = luminance * pixels[from + 3] * scale + 0.5;
  }
}
