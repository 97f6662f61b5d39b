import { byteOfLinear, LINEAR_OF_BYTE } from '../colour/srgb.ts';

/** A tile of 8-bit samples, RGBA or one amount a pixel. */
interface Bytes {
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 4;
}

/**
 * Draws rows of a tile at half its pixels, rounded up: each new one has the mean light of the two by two that it
 * covers, weighed by alpha. Of an odd tile the last column and row stand for themselves, so edges that close stay closed.
 *
 * @param to       `ceil(width / 2)` by `ceil(height / 2)`, of as many channels.
 * @param firstRow Of `to`.
 */
export function halveRows(from: Bytes, to: Uint8Array, firstRow: number, rows: number): void {
  const { width, height, channels } = from;
  const columns = Math.ceil(width / 2);
  const mean = channels === 4 ? meanColour : meanAmount;
  const words = channels === 4 ? wordsOf(from.pixels) : undefined;
  const target = words && wordsOf(to);
  for (let row = firstRow; row < firstRow + rows; row++) {
    const upper = 2 * row * width;
    const lower = Math.min(2 * row + 1, height - 1) * width;
    for (let column = 0; column < columns; column++) {
      const left = 2 * column;
      const right = Math.min(left + 1, width - 1);
      const [a, b, c, d] = [upper + left, upper + right, lower + left, lower + right];
      const at = row * columns + column;
      // Most of a design is flat.
      if (words && target && words[a] === words[b] && words[a] === words[c] && words[a] === words[d])
        target[at] = words[a];
      else mean(from.pixels, a, b, c, d, to, at);
    }
  }
}

/** The same samples, a pixel at a time; none where they do not lie on whole words. */
function wordsOf({ buffer, byteOffset, length }: Uint8Array): Uint32Array | undefined {
  return byteOffset % 4 === 0 ? new Uint32Array(buffer, byteOffset, length / 4) : undefined;
}

type Mean = (
  pixels: Uint8Array,
  a: number,
  b: number,
  c: number,
  d: number,
  to: Uint8Array,
  at: number,
) => void;

const meanAmount: Mean = (pixels, a, b, c, d, to, at) => {
  to[at] = (pixels[a] + pixels[b] + pixels[c] + pixels[d] + 2) >> 2;
};

const meanColour: Mean = (pixels, a, b, c, d, to, at) => {
  const linear = LINEAR_OF_BYTE;
  const alphaA = pixels[4 * a + 3];
  const alphaB = pixels[4 * b + 3];
  const alphaC = pixels[4 * c + 3];
  const alphaD = pixels[4 * d + 3];
  const alpha = alphaA + alphaB + alphaC + alphaD;
  for (let channel = 0; channel < 3; channel++) {
    const light =
      alphaA * linear[pixels[4 * a + channel]] +
      alphaB * linear[pixels[4 * b + channel]] +
      alphaC * linear[pixels[4 * c + channel]] +
      alphaD * linear[pixels[4 * d + channel]];
    to[4 * at + channel] = alpha > 0 ? byteOfLinear(light / alpha) : 0;
  }
  to[4 * at + 3] = (alpha + 2) >> 2;
};
