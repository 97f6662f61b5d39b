import type { Frame } from '../colour/frame.ts';
import { fullSample } from '../colour/samples.ts';

/** The colours of a picture, as bytes over the ground, and how many pixels have each; in the order of the colours. */
export interface Tally {
  /** 0xrrggbb */
  readonly colours: Uint32Array;
  readonly counts: Uint32Array;
  /** How many of them lie in plain areas: all four neighbours are alike. */
  readonly plain: Uint32Array;
  readonly pixels: number;
  /** Sums of `plain`, and how near neighbours had to be for it: 0, or a byte's steps that a noisy picture is given. */
  readonly plainPixels: number;
  readonly within: number;
}

const ALL_COLOURS = 1 << 24;
/** Where more of a picture lies among what is nearly its like, and not quite, it is noisy or painted. */
const UNCLEAN = 0.08;
/** Steps of a byte that neighbours of one ink may differ by after a lossy coding. */
const NOISY = 12;

/**
 * Counts the colours of a picture, whose edges are neighbours of each other.
 *
 * @param paper What shows through translucent pixels: sRGB bytes.
 */
export function tallyColours(picture: Frame, paper: readonly [number, number, number]): Tally {
  const counts = new Uint32Array(ALL_COLOURS);
  let plain = new Uint32Array(ALL_COLOURS);
  const pixels = picture.width * picture.height;
  const found = walk(picture, paper, 0, plain, counts);
  const isNoisy = found.nearly > UNCLEAN * pixels;
  if (isNoisy) plain = new Uint32Array(ALL_COLOURS);
  const plainPixels = isNoisy ? walk(picture, paper, NOISY, plain).plain : found.plain;
  const within = isNoisy ? NOISY : 0;
  let kinds = 0;
  for (let colour = 0; colour < ALL_COLOURS; colour++) if (counts[colour] > 0) kinds++;
  const tally = {
    colours: new Uint32Array(kinds),
    counts: new Uint32Array(kinds),
    plain: new Uint32Array(kinds),
  };
  for (let colour = 0, at = 0; colour < ALL_COLOURS; colour++) {
    if (counts[colour] === 0) continue;
    tally.colours[at] = colour;
    tally.counts[at] = counts[colour];
    tally.plain[at++] = plain[colour];
  }
  return { ...tally, pixels, plainPixels, within };
}

/** Counts what is plain and what is nearly; three rows are kept, as bytes over the paper. */
function walk(
  picture: Frame,
  paper: readonly [number, number, number],
  within: number,
  plain: Uint32Array,
  counts?: Uint32Array,
): { plain: number; nearly: number } {
  const { width, height } = picture;
  let above: Int32Array = new Int32Array(width);
  let here: Int32Array = new Int32Array(width);
  let below: Int32Array = new Int32Array(width);
  coloursOfRow(picture, height - 1, paper, above);
  coloursOfRow(picture, 0, paper, here);
  const found = { plain: 0, nearly: 0 };
  for (let y = 0; y < height; y++) {
    coloursOfRow(picture, (y + 1) % height, paper, below);
    for (let x = 0; x < width; x++) {
      const colour = here[x];
      if (counts) counts[colour]++;
      const left = here[x === 0 ? width - 1 : x - 1];
      const right = here[x === width - 1 ? 0 : x + 1];
      if (
        isNear(colour, left, within) &&
        isNear(colour, right, within) &&
        isNear(colour, above[x], within) &&
        isNear(colour, below[x], within)
      ) {
        plain[colour]++;
        found.plain++;
      } else if (
        counts &&
        isNear(colour, left, NOISY) &&
        isNear(colour, right, NOISY) &&
        isNear(colour, above[x], NOISY) &&
        isNear(colour, below[x], NOISY)
      )
        found.nearly++;
    }
    const oldest = above;
    above = here;
    here = below;
    below = oldest;
  }
  return found;
}

function isNear(one: number, other: number, within: number): boolean {
  if (one === other) return true;
  if (within === 0) return false;
  return (
    Math.abs((one >> 16) - (other >> 16)) <= within &&
    Math.abs(((one >> 8) & 255) - ((other >> 8) & 255)) <= within &&
    Math.abs((one & 255) - (other & 255)) <= within
  );
}

/** A row's colours as 0xrrggbb over the paper. */
export function coloursOfRow(
  { pixels, width }: Frame,
  y: number,
  paper: readonly [number, number, number],
  into: Int32Array,
): void {
  const full = fullSample(pixels);
  const scale = 255 / full;
  for (let x = 0, at = 4 * width * y; x < width; x++, at += 4) {
    const cover = pixels[at + 3];
    if (cover === full && full === 255) {
      into[x] = (pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2];
      continue;
    }
    const over = (cover / full) * scale;
    const under = 1 - cover / full;
    const red = (pixels[at] * over + paper[0] * under + 0.5) | 0;
    const green = (pixels[at + 1] * over + paper[1] * under + 0.5) | 0;
    const blue = (pixels[at + 2] * over + paper[2] * under + 0.5) | 0;
    into[x] = (red << 16) | (green << 8) | blue;
  }
}
