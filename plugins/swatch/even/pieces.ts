import { cellGrid, cellIndex, type FieldShape, type RandomStream } from 'tenter';
import type { Prepared } from '../way.ts';
import { PER_PIECE, type Pieces } from './model.ts';
import { FLIPS, TURNED_ON_ITS_SIDE, waysOf } from './ways.ts';

/** Samples of the finest level that stay between a piece and the edge of the swatch. */
const MARGIN = 3;
/** A piece reaches over so much of the swatch at most, from its middle. */
const MOST_SHARE = 0.24;
/** Pieces reach no less far than this, mm, or a large tile would hold millions. */
export const LEAST_REACH = 1;
/** How many places are tried for each piece. */
const TRIES = 10;
/** Rings of pieces around one that are looked through for the same place, and when all are laid. */
const RINGS = 5;
const LAST_RINGS = 11;
/** Of two pieces so near in the swatch, in steps of the net, each shows something of the other. */
const ALIKE = 0.8;

/**
 * The net of pieces for a swatch.
 *
 * @param reach mm that a piece should reach from its middle, as its structure asks: it may come out smaller.
 */
export function netOf({ box, width, height, turned }: Prepared, reach: number): FieldShape {
  const [wide, high] = turned ? [Math.min(width, height), Math.min(width, height)] : [width, height];
  const across = Math.max(LEAST_REACH, Math.min(reach, MOST_SHARE * wide, 4 * MOST_SHARE * high));
  const down = Math.max(LEAST_REACH, Math.min(reach, MOST_SHARE * high, 4 * MOST_SHARE * wide));
  // Every second row stands half a step aside, so rows go by twos over whatever closes.
  const sides = { width: across, height: (down * Math.sqrt(3)) / 2 };
  return cellGrid(box, sides, (count) => 2 * Math.ceil(count / 2));
}

/**
 * Takes for each corner of the net a piece of the swatch: of several that chance proposes the one that keeps
 * farthest from where the same place lies already.
 */
export function takePieces(prepared: Prepared, net: FieldShape): Pieces {
  const { turned, mirrored, progress } = prepared;
  const stream = prepared.random('pieces');
  const pieces = { net, numbers: new Float64Array(net.width * net.height * PER_PIECE).fill(Number.NaN) };
  const ways = waysOf(turned, mirrored);
  const around = stepsWithin(RINGS);
  for (let j = 0; j < net.height; j++) {
    for (let i = 0; i < net.width; i++) {
      let [best, kept] = [-1, [0, 0, 0]];
      for (let attempt = 0; attempt < TRIES; attempt++) {
        const piece = proposed(prepared, net, ways[stream.below(ways.length)], stream);
        const back = best === Number.POSITIVE_INFINITY ? 0 : nearestSame(pieces, i, j, piece, around);
        if (back > best) [best, kept] = [back, piece];
      }
      pieces.numbers.set(kept, cellIndex(net, i, j) * PER_PIECE);
    }
    progress((j + 1) / net.height);
  }
  return pieces;
}

function proposed(
  { width, height, levels }: Prepared,
  net: FieldShape,
  way: number,
  random: RandomStream,
): number[] {
  const margin = MARGIN * levels[0].mmPerSample;
  const [wide, high] = TURNED_ON_ITS_SIDE[way] ? [height, width] : [width, height];
  const within = (side: number, reach: number) => {
    const free = Math.max(0, side / 2 - reach - margin);
    return side / 2 + free * random.between(-1, 1);
  };
  return [within(wide, net.mmPerCellX), within(high, net.mmPerCellY), way];
}

/** mm between the two nearest places that show the same piece; infinite where none does within many pieces. */
export function comesBack(pieces: Pieces): number {
  const { net, numbers } = pieces;
  const around = stepsWithin(net.width * net.height > 20_000 ? RINGS : LAST_RINGS);
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < net.height; j++) {
    for (let i = 0; i < net.width; i++) {
      const at = cellIndex(net, i, j) * PER_PIECE;
      const piece = [numbers[at], numbers[at + 1], numbers[at + 2]];
      least = Math.min(least, nearestSame(pieces, i, j, piece, around));
    }
  }
  return least;
}

/** mm from a piece at corner (i, j) to the nearest other one around that shows the same place, the same way up. */
function nearestSame(
  { net, numbers }: Pieces,
  i: number,
  j: number,
  [x, y, way]: readonly number[],
  around: readonly (readonly [number, number])[],
): number {
  const { mmPerCellX, mmPerCellY } = net;
  const [flipX, flipY] = FLIPS[way];
  const own = cellIndex(net, i, j);
  let least = Number.POSITIVE_INFINITY;
  for (const [di, dj] of around) {
    const other = cellIndex(net, i + di, j + dj);
    const at = other * PER_PIECE;
    if (numbers[at + 2] !== way || other === own) continue;
    const [dx, dy] = [numbers[at] - x, numbers[at + 1] - y];
    if ((dx / mmPerCellX) ** 2 + (0.75 * dy * dy) / mmPerCellY ** 2 > ALIKE ** 2) continue;
    const aside = (dj & 1) === 0 ? 0 : (j & 1) === 0 ? 0.5 : -0.5;
    const distance = Math.hypot((di + aside) * mmPerCellX - flipX * dx, dj * mmPerCellY - flipY * dy);
    if (distance < least) least = distance;
  }
  return least;
}

function stepsWithin(rings: number): [number, number][] {
  const steps: [number, number][] = [];
  for (let dj = -rings; dj <= rings; dj++) {
    for (let di = -rings; di <= rings; di++) if (di !== 0 || dj !== 0) steps.push([di, dj]);
  }
  return steps;
}
