import { labOfLinear } from '../colour/lab.ts';
import { fullSample, linearTable } from '../colour/samples.ts';
import type { InspectedPicture } from './inspected-picture.ts';

/** Something that will line up in the repeat. */
export interface HotSpot {
  /** Centre on the tile, px. */
  readonly x: number;
  readonly y: number;
  /** Lightness (L*) above or below the rest. */
  readonly contrast: number;
}

/** Whether the repeat will show from a distance. */
export interface RepeatReport {
  readonly shows: boolean;
  /** Contrast of the bands that run down (of column means) and across (of row means), L*. */
  readonly bandsDown: number;
  readonly bandsAcross: number;
  /** How many times as strong they are as chance would make them in a texture without bands. */
  readonly bandsDownRatio: number;
  readonly bandsAcrossRatio: number;
  /** At most five, the strongest first. */
  readonly hotSpots: readonly HotSpot[];
  readonly summary: string;
}

/** Cells along the longer side: what is left of a tile seen from some ten times its size away. */
const CELLS = 24;
/** Lightness steps that an eye finds in a repeating band or spot; common practice, no source. */
const SEEN_BAND = 0.6;
const SEEN_SPOT = 3;
/** Chance makes a variance ratio above this, or a spot this many deviations out, in well under 1 % of tiles. */
const BAND_RATIO = 3;
const SPOT_DEVIATIONS = 4.5;

/**
 * Whether stripes or hot spots of a tile will show when it is laid in repeat and seen from afar.
 *
 * The tile is averaged into cells, about 24 along its longer side, as lightness L*; what is transparent
 * shows white, as on the sheets. Bands: the
 * variance between the means of columns (rows) against that within them (one-way analysis of
 * variance, Fisher 1925: about 1 where there are none). Hot spots: cells far from the median,
 * measured in robust deviations (1.4826 x the median absolute deviation). Each must also be strong
 * enough to be seen. Meant for textures: in artwork the motif itself is a hot spot, and meant to be.
 */
export function checkRepeat(picture: InspectedPicture): RepeatReport {
  const { values, columns, rows, side } = lightnessCells(picture);
  const down = bandContrast(values, columns, rows, (column, row) => row * columns + column);
  const across = bandContrast(values, rows, columns, (row, column) => row * columns + column);
  const hotSpots = findHotSpots(values, columns, side);
  const isSeen = ({ contrast, ratio }: Bands) => contrast > SEEN_BAND && ratio > BAND_RATIO;
  const faults = [
    isSeen(down) && `bands running down (${down.contrast.toFixed(1)} L*)`,
    isSeen(across) && `bands running across (${across.contrast.toFixed(1)} L*)`,
    hotSpots.length > 0 &&
      `${hotSpots.length} spot${hotSpots.length > 1 ? 's' : ''} that will line up, the strongest at ${Math.round(hotSpots[0].x)}, ${Math.round(hotSpots[0].y)} px`,
  ].filter((text) => typeof text === 'string');
  return {
    shows: faults.length > 0,
    bandsDown: down.contrast,
    bandsAcross: across.contrast,
    bandsDownRatio: down.ratio,
    bandsAcrossRatio: across.ratio,
    hotSpots,
    summary: faults.length
      ? `the repeat shows from afar: ${faults.join('; ')}`
      : 'the repeat does not show from afar',
  };
}

interface Cells {
  readonly values: Float64Array;
  readonly columns: number;
  readonly rows: number;
  /** px of a cell. */
  readonly side: number;
}

function lightnessCells({ pixels, width, height }: InspectedPicture): Cells {
  const side = Math.max(1, Math.max(width, height) / CELLS);
  const columns = Math.max(1, Math.round(width / side));
  const rows = Math.max(1, Math.round(height / side));
  const values = new Float64Array(columns * rows);
  const linear = linearTable(pixels);
  const full = fullSample(pixels);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const left = Math.floor((column * width) / columns);
      const right = Math.max(left + 1, Math.floor(((column + 1) * width) / columns));
      const top = Math.floor((row * height) / rows);
      const bottom = Math.max(top + 1, Math.floor(((row + 1) * height) / rows));
      // Up to 64 x 64 samples a cell: the mean of a texture needs no more.
      const stepX = Math.max(1, (right - left) >> 6);
      const stepY = Math.max(1, (bottom - top) >> 6);
      let [red, green, blue, count] = [0, 0, 0, 0];
      for (let y = top; y < bottom; y += stepY) {
        for (let x = left; x < right; x += stepX, count++) {
          const at = (y * width + x) * 4;
          const cover = pixels[at + 3] / full;
          red += 1 - cover + cover * linear[pixels[at]];
          green += 1 - cover + cover * linear[pixels[at + 1]];
          blue += 1 - cover + cover * linear[pixels[at + 2]];
        }
      }
      values[row * columns + column] = labOfLinear(red / count, green / count, blue / count).L;
    }
  }
  return { values, columns, rows, side };
}

interface Bands {
  readonly contrast: number;
  readonly ratio: number;
}

/** One-way analysis of variance over `groups` groups of `size` cells. */
function bandContrast(
  values: Float64Array,
  groups: number,
  size: number,
  at: (group: number, member: number) => number,
): Bands {
  if (groups < 3 || size < 3) return { contrast: 0, ratio: 0 };
  const grand = mean(values);
  let between = 0;
  let within = 0;
  for (let group = 0; group < groups; group++) {
    const members = Float64Array.from({ length: size }, (_, member) => values[at(group, member)]);
    const own = mean(members);
    between += (own - grand) ** 2;
    for (const value of members) within += (value - own) ** 2;
  }
  const betweenVariance = between / (groups - 1);
  const withinVariance = within / (groups * (size - 1));
  const ratio = betweenVariance === 0 ? 0 : (betweenVariance * size) / Math.max(withinVariance, 1e-9);
  return { contrast: Math.sqrt(betweenVariance), ratio };
}

function findHotSpots(values: Float64Array, columns: number, side: number): HotSpot[] {
  const middle = median(values);
  const deviation = 1.4826 * median(values.map((value) => Math.abs(value - middle)));
  const spots: HotSpot[] = [];
  values.forEach((value, index) => {
    const contrast = value - middle;
    if (Math.abs(contrast) < Math.max(SEEN_SPOT, SPOT_DEVIATIONS * deviation)) return;
    spots.push({
      x: ((index % columns) + 0.5) * side,
      y: (Math.floor(index / columns) + 0.5) * side,
      contrast,
    });
  });
  return spots.sort((a, b) => Math.abs(b.contrast) - Math.abs(a.contrast)).slice(0, 5);
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  return sorted[sorted.length >> 1];
}
