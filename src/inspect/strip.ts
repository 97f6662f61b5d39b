import { fullSample, linearTable } from '../colour/samples.ts';
import { modulo } from '../repeat/lattice.ts';
import type { InspectedPicture } from './inspected-picture.ts';
import type { Axis, Side } from './seam.ts';

/** A picture with what its samples mean. */
export interface Source extends InspectedPicture {
  /** Light of each sample value, 0..1. */
  readonly linear: Readonly<Float32Array>;
  /** The part of it that each channel's sample brings to what is seen, so that no pixel multiplies. */
  readonly light: Readonly<Record<'red' | 'green' | 'blue', Float64Array>>;
  /** The sample of full opacity. */
  readonly full: number;
  readonly opaque: boolean;
}

/**
 * The pixels on one side of a line, as colours: `count` places along the line, `taps` cells deep,
 * the nearest first. Sample (place, tap) of a channel stands at place * taps + tap.
 *
 * The channels are L* (0..100), then, in cells larger than a pixel, a* and b* at half weight, then
 * opacity (0..100) unless all is opaque. Colour counts for half and only in cells: the eye resolves
 * it less, and JPEG stores it at half the resolution. Colours are as seen over black, so that what
 * is transparent has none.
 */
export interface Strip {
  readonly channels: readonly Float32Array[];
  readonly count: number;
  readonly taps: number;
}

const COLOUR_WEIGHT = 0.5;
/** Cells are sampled at 4 by 4 points at most: enough to quiet noise, and the time stays bounded. */
const POINTS_ACROSS_CELL = 4;

export function openSource(picture: InspectedPicture): Source {
  const full = fullSample(picture.pixels);
  const linear = linearTable(picture.pixels);
  return {
    ...picture,
    linear,
    light: lightOf(linear),
    full,
    opaque: picture.isOpaque ?? isOpaque(picture.pixels, full),
  };
}

const LIGHTS = /* @__PURE__ */ new WeakMap<Float32Array, Source['light']>();

function lightOf(linear: Float32Array): Source['light'] {
  const known = LIGHTS.get(linear);
  if (known) return known;
  const weighed = (weight: number) => Float64Array.from(linear, (value) => weight * value);
  const light = { red: weighed(RED_LIGHT), green: weighed(GREEN_LIGHT), blue: weighed(BLUE_LIGHT) };
  LIGHTS.set(linear, light);
  return light;
}

function isOpaque(pixels: InspectedPicture['pixels'], full: number): boolean {
  const words = pixels.BYTES_PER_ELEMENT === 1 ? wordsOf(pixels) : undefined;
  if (words) return isOpaqueWords(words);
  for (let at = 3; at < pixels.length; at += 4) if (pixels[at] !== full) return false;
  return true;
}

/** Bytes of RGBA a pixel at a time; nothing where they do not lie on a word's border, or alpha is not the high byte. */
function wordsOf({ buffer, byteOffset, byteLength }: InspectedPicture['pixels']): Uint32Array | undefined {
  const isLittleEndian = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1;
  return isLittleEndian && byteOffset % 4 === 0
    ? new Uint32Array(buffer, byteOffset, byteLength >> 2)
    : undefined;
}

/** So many are joined before they are looked at: a test for each costs more than the reading. */
const WORDS_TOGETHER = 4096;

function isOpaqueWords(words: Uint32Array): boolean {
  for (let first = 0; first < words.length; first += WORDS_TOGETHER) {
    const end = Math.min(words.length, first + WORDS_TOGETHER);
    let all = -1;
    for (let at = first; at < end; at++) all &= words[at];
    if (all >>> 24 !== 255) return false;
  }
  return true;
}

/** How many channels a strip has at a scale. */
export function channelCount({ opaque }: Source, scale: number): number {
  return (scale > 1 ? 3 : 1) + (opaque ? 0 : 1);
}

/** One side of a line, and from where along it on it is read, px. */
export interface SideFrom {
  readonly side: Side;
  readonly from: number;
}

/**
 * Reads the strips of many lines of one direction. Those between columns are read row by row, all lines of
 * a row together: each by itself would go through the whole picture.
 *
 * @param scale  Side of a cell in px, at least 1; a rest along the line that fills no cell is left out.
 * @param length px along the line.
 */
export function readStrips(
  source: Source,
  axis: Axis,
  sides: readonly SideFrom[],
  scale: number,
  taps: number,
  length: number,
): Strip[] {
  const count = Math.floor(length / scale);
  const strips = emptyStrips(sides.length, channelCount(source, scale), count, taps);
  const read = scale === 1 ? readPixels : readCells;
  const together = axis === 'column' ? ROWS_TOGETHER : count;
  for (let first = 0; first < count; first += together) {
    const end = Math.min(count, first + together);
    for (const [k, { side, from }] of sides.entries())
      read(source, axis, side, { from, scale, first, end }, strips[k]);
  }
  return strips;
}

/** In one piece of memory: hundreds of small ones keep the collector busy. */
function emptyStrips(strips: number, channels: number, count: number, taps: number): Strip[] {
  const size = count * taps;
  const memory = new Float32Array(strips * channels * size);
  const partOf = (k: number) => memory.subarray(k * size, (k + 1) * size);
  return Array.from({ length: strips }, (_, strip) => ({
    channels: Array.from({ length: channels }, (_, channel) => partOf(strip * channels + channel)),
    count,
    taps,
  }));
}

/** So many rows of a picture, 4 bytes to a pixel, stay in the processor's own memory while all lines are read. */
const ROWS_TOGETHER = 16;

/** Reads one strip, the whole of its line. */
export function readStrip(source: Source, axis: Axis, side: Side, scale: number, taps: number): Strip {
  const length = axis === 'column' ? source.height : source.width;
  return readStrips(source, axis, [{ side, from: 0 }], scale, taps, length)[0];
}

/** Places `first` up to `end` of a strip, which begins at `from` px of its line. */
interface Part {
  readonly from: number;
  readonly scale: number;
  readonly first: number;
  readonly end: number;
}

function readPixels(source: Source, axis: Axis, side: Side, part: Part, strip: Strip): void {
  const { width, height, opaque } = source;
  const length = axis === 'column' ? height : width;
  const [across, along] = axis === 'column' ? [4, width * 4] : [width * 4, 4];
  const start = side.first * across;
  const step = side.step * across;
  const read = opaque ? readOpaquePlace : readPlace;
  for (let place = part.first; place < part.end; place++) {
    const at = alongAt(side, part.from + place, length) * along + start;
    read(source, at, step, place, strip);
  }
}

/** Reads one place of a strip in pixels: from sample `at` on, each tap `step` samples further. */
type ReadPlace = (source: Source, at: number, step: number, place: number, strip: Strip) => void;

const readOpaquePlace: ReadPlace = ({ pixels, light }, at, step, place, { channels, taps }) => {
  const lightness = channels[0];
  const { red, green, blue } = light;
  const end = (place + 1) * taps;
  for (let tap = place * taps, from = at; tap < end; tap++, from += step) {
    const seen = red[pixels[from]] + green[pixels[from + 1]] + blue[pixels[from + 2]];
    lightness[tap] = 116 * root(seen) - 16;
  }
};

const readPlace: ReadPlace = ({ pixels, light, full }, at, step, place, { channels, taps }) => {
  const [lightness, opacity] = channels;
  const { red, green, blue } = light;
  const end = (place + 1) * taps;
  for (let tap = place * taps, from = at; tap < end; tap++, from += step) {
    const whole = red[pixels[from]] + green[pixels[from + 1]] + blue[pixels[from + 2]];
    const seen = (whole * pixels[from + 3]) / full;
    lightness[tap] = 116 * root(seen) - 16;
    opacity[tap] = (100 * pixels[from + 3]) / full;
  }
};

function readCells(source: Source, axis: Axis, side: Side, part: Part, strip: Strip): void {
  const { width, height, opaque } = source;
  const { from, scale, first, end } = part;
  const length = axis === 'column' ? height : width;
  const [across, along] = axis === 'column' ? [4, width * 4] : [width * 4, 4];
  const pace = Math.max(1, Math.floor(scale / POINTS_ACROSS_CELL));
  const add = opaque ? addOpaqueCell : addCell;
  const starts = new Uint32Array(Math.ceil(scale / pace));
  const cell = new Float64Array(4);
  const points = starts.length ** 2;
  for (let place = first; place < end; place++) {
    for (let k = 0; k < starts.length; k++) {
      const at = alongAt(side, from + place * scale + k * pace, length);
      starts[k] = at * along + side.first * across;
    }
    for (let tap = 0; tap < strip.taps; tap++) {
      add(source, starts, side.step * tap * scale * across, side.step * pace * across, cell);
      const at = place * strip.taps + tap;
      storeColour(strip.channels, at, cell[0] / points, cell[1] / points, cell[2] / points);
      if (!opaque) strip.channels[3][at] = (100 * cell[3]) / points;
    }
  }
}

/**
 * Adds up the light of a square of points, as many in a row as there are rows.
 *
 * @param starts Where each row begins, in samples, `offset` of them further on.
 * @param step   Samples from point to point.
 * @param cell   Comes back with red, green, blue, and how much is covered.
 */
type AddCell = (
  source: Source,
  starts: Uint32Array,
  offset: number,
  step: number,
  cell: Float64Array,
) => void;

const addOpaqueCell: AddCell = ({ pixels, linear }, starts, offset, step, cell) => {
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let row = 0; row < starts.length; row++) {
    for (let k = 0, at = starts[row] + offset; k < starts.length; k++, at += step) {
      red += linear[pixels[at]];
      green += linear[pixels[at + 1]];
      blue += linear[pixels[at + 2]];
    }
  }
  cell[0] = red;
  cell[1] = green;
  cell[2] = blue;
};

const addCell: AddCell = ({ pixels, linear, full }, starts, offset, step, cell) => {
  cell.fill(0);
  for (let row = 0; row < starts.length; row++) {
    for (let k = 0, at = starts[row] + offset; k < starts.length; k++, at += step) {
      const opacity = pixels[at + 3] / full;
      cell[0] += linear[pixels[at]] * opacity;
      cell[1] += linear[pixels[at + 1]] * opacity;
      cell[2] += linear[pixels[at + 2]] * opacity;
      cell[3] += opacity;
    }
  }
};

function alongAt({ shift, reversed }: Side, place: number, length: number): number {
  if (reversed) return length - 1 - place;
  return shift === 0 ? place : modulo(place + shift, length);
}

/** The Y row of linear sRGB to XYZ (IEC 61966-2-1; exact fractions of CSS Color Module Level 4). */
const RED_LIGHT = 87_098 / 409_605;
const GREEN_LIGHT = 175_762 / 245_763;
const BLUE_LIGHT = 12_673 / 175_545;

/** The X and Z rows, divided by the white x = 0.3127, y = 0.3290. */
const WHITE_X = 0.3127 / 0.329;
const WHITE_Z = (1 - 0.3127 - 0.329) / 0.329;
const X_ROW = [506_752 / 1_228_815 / WHITE_X, 87_881 / 245_763 / WHITE_X, 12_673 / 70_218 / WHITE_X] as const;
const Z_ROW = [
  7_918 / 409_605 / WHITE_Z,
  87_881 / 737_289 / WHITE_Z,
  1_001_167 / 1_053_270 / WHITE_Z,
] as const;

function storeColour(channels: readonly Float32Array[], at: number, r: number, g: number, b: number): void {
  const y = root(RED_LIGHT * r + GREEN_LIGHT * g + BLUE_LIGHT * b);
  const x = root(X_ROW[0] * r + X_ROW[1] * g + X_ROW[2] * b);
  const z = root(Z_ROW[0] * r + Z_ROW[1] * g + Z_ROW[2] * b);
  channels[0][at] = 116 * y - 16;
  channels[1][at] = COLOUR_WEIGHT * 500 * (x - y);
  channels[2][at] = COLOUR_WEIGHT * 200 * (y - z);
}

/** The root of CIE L*a*b* (CIE 15) by a table over the square root of light, where it is nearly straight. */
const ROOT_CELLS = 4096;
const ROOTS = /* @__PURE__ */ Float32Array.from({ length: ROOT_CELLS + 3 }, (_, cell) => {
  const light = (cell / ROOT_CELLS) ** 2;
  return light > 216 / 24_389 ? Math.cbrt(light) : ((24_389 / 27) * light + 16) / 116;
});

function root(light: number): number {
  const place = Math.sqrt(light) * ROOT_CELLS;
  const cell = place | 0;
  return ROOTS[cell] + (ROOTS[cell + 1] - ROOTS[cell]) * (place - cell);
}
