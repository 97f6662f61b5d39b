import type { Frame } from '../../colour/frame.ts';
import { coloursOfRow, type Tally } from '../../ink/tally.ts';

/** px of the longer side, at most. */
const SIDE = 1600;
/** CIEDE2000 that is drawn at full strength. */
const FULL = 10;
const PAPER = [246, 243, 236] as const;
const WRONG = [168, 32, 20] as const;

/** A picture in pale grey, redder the farther the mixes of a card are from it: full red from CIEDE2000 10 on. */
export function errorPicture(
  picture: Frame,
  paper: readonly [number, number, number],
  { colours }: Tally,
  errors: Float32Array,
): Frame {
  const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
  const width = Math.max(1, Math.round(picture.width * scale));
  const height = Math.max(1, Math.round(picture.height * scale));
  const pixels = new Uint8Array(4 * width * height).fill(255);
  const row = new Int32Array(picture.width);
  for (let y = 0; y < height; y++) {
    coloursOfRow(picture, Math.floor(((y + 0.5) * picture.height) / height), paper, row);
    for (let x = 0; x < width; x++) {
      const colour = row[Math.floor(((x + 0.5) * picture.width) / width)];
      const wrong = Math.min(1, errors[placeOf(colours, colour)] / FULL);
      const light = (0.3 * (colour >> 16) + 0.59 * ((colour >> 8) & 255) + 0.11 * (colour & 255)) / 255;
      for (let channel = 0; channel < 3; channel++) {
        const calm = PAPER[channel] * (0.72 + 0.28 * light);
        pixels[4 * (y * width + x) + channel] = Math.round(calm + (WRONG[channel] - calm) * wrong);
      }
    }
  }
  return { pixels, width, height };
}

/** Where a colour stands among all, by halving. */
function placeOf(colours: Uint32Array, colour: number): number {
  let [low, high] = [0, colours.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (colours[middle] < colour) low = middle + 1;
    else high = middle;
  }
  return low;
}
