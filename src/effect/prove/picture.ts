import { decodeSrgb, encodeSrgb } from '../../colour/srgb.ts';
import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES } from '../layer.ts';
import type { ProofPicture } from './report.ts';

type Colour = readonly [red: number, green: number, blue: number];

const RED: Colour = [226, 30, 40];
const GROUND: Colour = [216, 212, 204];
/** Of middling depth, so that both thinner and thicker paint show. */
const WASH: Colour = [79, 127, 163];
/** How red the smallest difference is. */
const FAINTEST = 0.3;
/** Stands for what is no number. */
const LARGE = 1e6;
/** Squares that a shift can be seen to move, and bleeding to wash out, px of the picture. */
const CHECKER = 12;
const GAP = 6;
/** Small bands are shown enlarged to about this many pixels across. */
const LEAST_ACROSS = 220;

/** A layer as it would look over a plain ground; over squares where it moves paint. */
export function showLayer(layer: AnyLayer, mmPerPixel = 0.1): ProofPicture {
  const { width, height, load, parting, tint, shade, shift, bleed, relief } = layer;
  const pixels = new Uint8ClampedArray(width * height * 4);
  for (let k = 0; k < width * height; k++) {
    const ground = (load ?? parting) ? WASH : GROUND;
    const dim = shift || bleed ? squareAt(layer, k, mmPerPixel) : 1;
    for (let c = 0; c < 3; c++) {
      let light = decodeSrgb((ground[c] * dim) / 255);
      if (load ?? parting) {
        const parted = parting ? number(parting[3 * k + c], 0) : 0;
        light **= Math.max(0, (load ? number(load[k], 1) : 1) + parted);
      }
      if (shade) light *= Math.max(0, number(shade[k], 1));
      if (relief) light *= flankAt(relief, k, width, mmPerPixel);
      let encoded = encodeSrgb(light);
      if (tint) {
        const alpha = number(tint[4 * k + 3], 0);
        encoded += (number(tint[4 * k + c], 0) - encoded) * alpha;
      }
      pixels[4 * k + c] = encoded * 255;
    }
    pixels[4 * k + 3] = 255;
  }
  return { pixels, width, height };
}

function squareAt({ width, shift, bleed }: AnyLayer, k: number, mmPerPixel: number): number {
  const moved = (channel: number) => (shift ? number(shift[2 * k + channel], 0) / mmPerPixel : 0);
  const across = Math.floor(((k % width) + moved(0)) / CHECKER);
  const down = Math.floor((Math.floor(k / width) + moved(1)) / CHECKER);
  const spread = bleed ? number(bleed[k], 0) / mmPerPixel / CHECKER : 0;
  return 0.875 + ((across + down) % 2 === 0 ? 0.125 : -0.125) * Math.exp(-4 * spread * spread);
}

/** Roughly how a relief would be lit from the upper left. */
function flankAt(relief: Float32Array, k: number, width: number, mmPerPixel: number): number {
  const before = k % width > 0 && k >= width ? k - width - 1 : k;
  const rise = number(relief[k], 0) - number(relief[before], 0);
  return Math.min(2, Math.max(0.3, 1 + (1.5 * rise) / mmPerPixel));
}

function number(value: number, instead: number): number {
  return Number.isFinite(value) ? value : instead;
}

/** Paints a rectangle of a picture's pixels in one colour; what lies outside is left out. */
export function fillRectangle(
  { pixels, width, height }: ProofPicture,
  [x, y, across, down]: readonly [number, number, number, number],
  [red, green, blue]: Colour = RED,
): void {
  for (let row = Math.max(0, y); row < Math.min(height, y + down); row++) {
    for (let column = Math.max(0, x); column < Math.min(width, x + across); column++) {
      pixels.set([red, green, blue, 255], 4 * (row * width + column));
    }
  }
}

const SHOWN_TWICE =
  'Two that should be the same, and beside them in red where they differ: the redder, the more.';

/** Both layers and, in red, where they differ: the redder, the more. */
export function showDifference(first: AnyLayer, second: AnyLayer, mmPerPixel?: number): ProofPicture {
  const shown = showLayer(first, mmPerPixel);
  const marked = { ...shown, pixels: faded(shown.pixels) };
  for (const plane of PLANE_NAMES) {
    const [a, b] = [first[plane], second[plane]];
    if (a && b) markDifferent(marked, a, b, PLANE_CHANNELS[plane]);
  }
  return sideBySide([shown, showLayer(second, mmPerPixel), marked], SHOWN_TWICE);
}

function markDifferent(picture: ProofPicture, a: Float32Array, b: Float32Array, channels: number): void {
  const distances = a.map((value, k) => Math.abs(number(value, LARGE) - number(b[k], LARGE)));
  const largest = distances.reduce((most, distance) => Math.max(most, distance), 0);
  for (let k = 0; k < a.length; k++) {
    if (Object.is(a[k], b[k])) continue;
    const weight = FAINTEST + (1 - FAINTEST) * (largest > 0 ? distances[k] / largest : 1);
    const at = 4 * Math.floor(k / channels);
    for (let c = 0; c < 3; c++) picture.pixels[at + c] += (RED[c] - picture.pixels[at + c]) * weight;
  }
}

/** A layer with single pixels in red. */
export function showMarked(layer: AnyLayer, isMarked: (pixel: number) => boolean): ProofPicture {
  const shown = showLayer(layer);
  for (let k = 0; k < layer.width * layer.height; k++)
    if (isMarked(k)) shown.pixels.set([...RED, 255], 4 * k);
  return sideBySide([shown], 'In red: the pixels with numbers that their plane must not hold.');
}

/** Pictures in a row with a gap between them, enlarged by a whole factor where they are small. */
export function sideBySide(
  pictures: readonly ProofPicture[],
  caption = pictures.flatMap((picture) => picture.caption ?? []).join(' '),
): ProofPicture {
  const widest = Math.max(...pictures.map(({ width }) => width));
  const factor = Math.max(1, Math.ceil(LEAST_ACROSS / widest));
  const width = pictures.reduce((sum, picture) => sum + picture.width * factor + GAP, -GAP);
  const height = Math.max(...pictures.map((picture) => picture.height * factor));
  const pixels = new Uint8ClampedArray(width * height * 4).fill(255);
  let left = 0;
  for (const picture of pictures) {
    for (let y = 0; y < picture.height * factor; y++) {
      for (let x = 0; x < picture.width * factor; x++) {
        const from = 4 * (Math.floor(y / factor) * picture.width + Math.floor(x / factor));
        pixels.set(picture.pixels.subarray(from, from + 4), 4 * (y * width + left + x));
      }
    }
    left += picture.width * factor + GAP;
  }
  return { pixels, width, height, caption };
}

function faded(pixels: Uint8ClampedArray): Uint8ClampedArray {
  return pixels.map((value, k) => (k % 4 === 3 ? value : 128 + value / 2));
}
