import { leastDifference } from '../colour/difference.ts';
import { colourDifference, type Lab, labOfLinear } from '../colour/index.ts';
import { LINEAR_OF_BYTE } from '../colour/srgb.ts';
import type { Ink } from './card.ts';

/** A colour that many pixels have, or nearly have. */
export interface Peak {
  readonly colour: Ink['colour'];
  /** Pixels within its reach. */
  readonly count: number;
  /** Pixels around it that are of no peak, as a part of its own: a wash has many, an ink none. */
  readonly around: number;
  /** The part of its pixels that lie in the inner half of its reach: most of an ink, few of a halo. */
  readonly dense: number;
}

/** Colours, each 0xrrggbb, and how many pixels of each count. */
export interface PeakSearch {
  readonly colours: Uint32Array;
  readonly counts: Uint32Array;
  /** CIEDE2000 within which pixels are of a peak, and within which nothing else should be. */
  readonly reach: number;
  readonly outer: number;
  /** Pixels that a peak has at least. */
  readonly least: number;
  readonly most: number;
}

/** A peak whose commonest exact colour has this part of its pixels was painted in it; of others the mean is it. */
const EXACT = 0.25;
/** This part of a peak's reach is its own even where another peak looks around. */
const CORE = 0.6;
/** Colours that are looked at, the commonest first: so that noise, which has millions, takes no longer. */
const MOST_COLOURS = 150_000;

/** The peaks among some colours, the largest first. */
export function findPeaks({ colours, counts, reach, outer, least, most }: PeakSearch): Peak[] {
  const order = commonest(counts);
  const labs = order.map((at) => labOfColour(colours[at]));
  const owner = new Int32Array(order.length).fill(-1);
  const cells = cellsOf(order, colours, counts);
  const found: { centre: Lab; colour: Ink['colour']; count: number }[] = [];
  while (found.length < most) {
    const members = largestCell(cells, owner, order, counts);
    if (members.length === 0) break;
    const start = meanOf(members, order, colours, counts);
    const near = within(labByTable(start), reach, labs, owner);
    const colour = colourOf(near.length > 0 ? near : members, order, colours, counts);
    const centre = labByTable(colour);
    const own = within(centre, reach, labs, owner);
    const count = own.reduce((sum, index) => sum + counts[order[index]], 0);
    if (count < least) break;
    // What is left around a peak has its centre again: it is of that peak, and no other.
    const same = found.findIndex((peak) => colourDifference(peak.centre, centre) < 1.5 * reach);
    const peak = same < 0 ? found.length : same;
    for (const index of own.length > 0 ? own : members) owner[index] = peak;
    if (same < 0) found.push({ centre, colour, count });
    else found[same].count += count;
  }
  return found
    .map(({ centre, colour, count }, peak) => {
      const others = found.filter((_, index) => index !== peak);
      let around = 0;
      labs.forEach((lab, index) => {
        if (owner[index] === peak || leastDifference(centre, lab) > outer) return;
        if (colourDifference(centre, lab) > outer) return;
        if (others.some((other) => colourDifference(other.centre, lab) < CORE * reach)) return;
        around += counts[order[index]];
      });
      const inner = order.reduce(
        (sum, at, index) =>
          owner[index] === peak && colourDifference(centre, labs[index]) <= reach / 2
            ? sum + counts[at]
            : sum,
        0,
      );
      return { colour, count, around: around / count, dense: inner / count };
    })
    .sort((a, b) => b.count - a.count);
}

function commonest(counts: Uint32Array): number[] {
  const some: number[] = [];
  counts.forEach((count, at) => {
    if (count > 0) some.push(at);
  });
  return some.sort((a, b) => counts[b] - counts[a] || a - b).slice(0, MOST_COLOURS);
}

/** Bytes to the side of a cell in which the next peak is looked for. */
const CELL_BITS = 3;

function cellsOf(order: readonly number[], colours: Uint32Array, counts: Uint32Array) {
  const cells = new Map<number, { members: number[]; count: number }>();
  order.forEach((at, index) => {
    const colour = colours[at];
    const part = (shift: number) => ((colour >> shift) & 255) >> CELL_BITS;
    const key = (part(16) << 10) | (part(8) << 5) | part(0);
    const cell = cells.get(key) ?? { members: [], count: 0 };
    cell.members.push(index);
    cell.count += counts[at];
    cells.set(key, cell);
  });
  return [...cells.values()].sort((a, b) => b.count - a.count);
}

/** What is left of the cell that has most left. */
function largestCell(
  cells: readonly { readonly members: readonly number[]; count: number }[],
  owner: Int32Array,
  order: readonly number[],
  counts: Uint32Array,
): number[] {
  let best: number[] = [];
  let most = 0;
  for (const cell of cells) {
    // What a cell had at first is the most it can have left.
    if (cell.count <= most) continue;
    const left = cell.members.filter((index) => owner[index] < 0);
    cell.count = left.reduce((sum, index) => sum + counts[order[index]], 0);
    if (cell.count > most) [best, most] = [left, cell.count];
  }
  return best;
}

/** Those that no peak has yet, within the reach of a colour. */
function within(centre: Lab, reach: number, labs: readonly Lab[], owner: Int32Array): number[] {
  const found: number[] = [];
  for (let index = 0; index < labs.length; index++) {
    if (owner[index] >= 0) continue;
    if (leastDifference(centre, labs[index]) > reach) continue;
    if (colourDifference(centre, labs[index]) <= reach) found.push(index);
  }
  return found;
}

function colourOf(
  members: readonly number[],
  order: readonly number[],
  colours: Uint32Array,
  counts: Uint32Array,
): Ink['colour'] {
  const all = members.reduce((sum, index) => sum + counts[order[index]], 0);
  const top = members.reduce((best, index) => (counts[order[index]] > counts[order[best]] ? index : best));
  if (counts[order[top]] >= EXACT * all) return bytesOf(colours[order[top]]);
  return meanOf(members, order, colours, counts).map(Math.round) as unknown as Ink['colour'];
}

function meanOf(
  members: readonly number[],
  order: readonly number[],
  colours: Uint32Array,
  counts: Uint32Array,
): Ink['colour'] {
  const sums = [0, 0, 0];
  let all = 0;
  for (const index of members) {
    const count = counts[order[index]];
    bytesOf(colours[order[index]]).forEach((byte, channel) => {
      sums[channel] += byte * count;
    });
    all += count;
  }
  return [sums[0] / all, sums[1] / all, sums[2] / all];
}

/** 0xrrggbb as three bytes. */
export function bytesOf(colour: number): [number, number, number] {
  return [colour >> 16, (colour >> 8) & 255, colour & 255];
}

/** Lab of 0xrrggbb, by the same. */
export function labOfColour(colour: number): Lab {
  return labByTable(bytesOf(colour));
}

/** Lab of an sRGB colour, 0..255, by the table of whole bytes: for the many colours of a picture. */
export function labByTable([red, green, blue]: readonly [number, number, number]): Lab {
  return labOfLinear(
    LINEAR_OF_BYTE[Math.round(red)],
    LINEAR_OF_BYTE[Math.round(green)],
    LINEAR_OF_BYTE[Math.round(blue)],
  );
}
