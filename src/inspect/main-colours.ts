import { colourDifference, leastDifference } from '../colour/difference.ts';
import { formatHex, parseHex, type Rgb } from '../colour/hex.ts';
import { type Lab, labOfBytes, labOfSrgb } from '../colour/lab.ts';
import { fullSample } from '../colour/samples.ts';
import { type InspectedPicture, requirePicture } from './inspected-picture.ts';

/** A colour that much of a picture has, give or take what is hardly told apart. */
export interface MainColour {
  /** `#rrggbb` */
  readonly hex: string;
  /** Of the picture, 0..1. */
  readonly share: number;
}

/** So many are named at most: more nobody reads. */
const MOST_NAMED = 8;
/** Pixels that are looked at: a share is then right within half a hundredth. */
const MOST_SAMPLES = 1 << 16;
/** Parts of a turn between samples: the most uneven of numbers, so that no stripe or check keeps step with it. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Side of a cell of Lab, in its units. */
const CELL = 4;
/** CIEDE2000 within which colours are one: what a mask by colour takes in where nobody says otherwise. */
const ALIKE = 8;
/** Colours that are held against each other: so that noise, which has thousands, takes no longer. */
const MOST_KINDS = 32;
/** Where one exact colour has this share of its kind it is the one that was painted; else the mean is. */
const PAINTED = 0.25;
const LEAST_SHARE = 0.001;

/** Colours that lie together. */
interface Group {
  count: number;
  /** Sums of the encoded 0..255 channels over its pixels. */
  readonly sums: [number, number, number];
  /** The colour in it that most pixels have, as 0xrrggbb, and how many. */
  most: number;
  mostCount: number;
}

/**
 * The main colours of a picture, largest first: at most eight, the same on every machine. Pixels are
 * sorted into cells of Lab, and a cell within a small CIEDE2000 of a larger one is taken for its colour.
 *
 * @param paper What shows through translucent pixels, encoded sRGB.
 * @throws Fault (input) where the samples do not fit the size.
 */
export function mainColours(picture: InspectedPicture, paper: Rgb = [1, 1, 1]): MainColour[] {
  requirePicture(picture);
  const counts = countColours(picture, paper);
  const cells = bySize(cellsOf(counts));
  const kinds: { readonly centre: Lab; readonly group: Group }[] = [];
  for (const cell of cells) {
    const centre = labOfSrgb(meanOf(cell));
    const near = nearestOf(centre, kinds);
    if (near) join(near.group, cell);
    else if (kinds.length < MOST_KINDS) kinds.push({ centre, group: cell });
  }
  return bySize(kinds.map(({ group }) => group))
    .map((group) => ({ hex: hexOf(group), share: group.count / samplesOf(picture) }))
    .filter(({ share }) => share >= LEAST_SHARE)
    .slice(0, MOST_NAMED);
}

/** Of some colours the one that is nearest to a colour, and the CIEDE2000 between them; none where there are none. */
export function nearestColour(
  hex: string,
  colours: readonly MainColour[],
): { readonly hex: string; readonly difference: number } | undefined {
  const wanted = labOfSrgb(parseHex(hex));
  return colours
    .map((colour) => ({
      hex: colour.hex,
      difference: colourDifference(wanted, labOfSrgb(parseHex(colour.hex))),
    }))
    .sort((a, b) => a.difference - b.difference)[0];
}

function samplesOf({ width, height }: Pick<InspectedPicture, 'width' | 'height'>): number {
  return Math.min(width * height, MOST_SAMPLES);
}

/** How many of the samples show each 24-bit colour. */
function countColours({ pixels, width, height }: InspectedPicture, paper: Rgb): Map<number, number> {
  const most = fullSample(pixels);
  const count = width * height;
  const samples = samplesOf({ width, height });
  const counts = new Map<number, number>();
  for (let sample = 0; sample < samples; sample++) {
    const pixel = samples === count ? sample : Math.floor(count * ((sample * GOLDEN) % 1));
    const at = 4 * pixel;
    const cover = pixels[at + 3] / most;
    let colour = 0;
    for (let channel = 0; channel < 3; channel++) {
      const shown = (pixels[at + channel] / most) * cover + paper[channel] * (1 - cover);
      colour = (colour << 8) | Math.round(255 * shown);
    }
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  return counts;
}

function cellsOf(counts: ReadonlyMap<number, number>): Group[] {
  const cells = new Map<string, Group>();
  for (const [colour, count] of counts) {
    const channels = channelsOf(colour);
    const { L, a, b } = labOfBytes(channels);
    const key = [L, a, b].map((value) => Math.round(value / CELL)).join();
    const sums = channels.map((value) => value * count) as [number, number, number];
    const one = { count, sums, most: colour, mostCount: count };
    const cell = cells.get(key);
    if (cell) join(cell, one);
    else cells.set(key, one);
  }
  return [...cells.values()];
}

function join(group: Group, other: Group): void {
  group.count += other.count;
  for (const channel of [0, 1, 2]) group.sums[channel] += other.sums[channel];
  const isMore =
    other.mostCount > group.mostCount || (other.mostCount === group.mostCount && other.most < group.most);
  if (isMore) [group.most, group.mostCount] = [other.most, other.mostCount];
}

function nearestOf<T extends { readonly centre: Lab }>(centre: Lab, kinds: readonly T[]): T | undefined {
  let [nearest, least] = [undefined as T | undefined, ALIKE];
  for (const kind of kinds) {
    if (leastDifference(kind.centre, centre) > least) continue;
    const difference = colourDifference(kind.centre, centre);
    if (difference <= least) [nearest, least] = [kind, difference];
  }
  return nearest;
}

/** Largest first; alike ones in the order of their colours, whatever the order they were found in. */
function bySize(groups: readonly Group[]): Group[] {
  return [...groups].sort((a, b) => b.count - a.count || a.most - b.most);
}

function meanOf({ sums, count }: Group): Rgb {
  return [sums[0] / count / 255, sums[1] / count / 255, sums[2] / count / 255];
}

function hexOf(group: Group): string {
  if (group.mostCount < PAINTED * group.count) return formatHex(meanOf(group));
  return `#${group.most.toString(16).padStart(6, '0')}`;
}

function channelsOf(colour: number): [number, number, number] {
  return [colour >> 16, (colour >> 8) & 255, colour & 255];
}
