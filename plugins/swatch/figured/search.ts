import type { RandomStream } from 'tenter';
import type { Laid } from './overlay.ts';
import type { Cutting, Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';
import type { Uses } from './uses.ts';

/** Places of the swatch that are tried for a piece, and places of the plane where they are compared. */
const TRIES = 3000;
const POINTS = 200;
/** The likeliest by a first look at a few of these are compared at all of them. */
const FEW = 36;
const LIKELY = 120;
/** And moved about by so many. */
const CLOSE = 110;
/** How many of them are tried nearby too. */
const BEST = 8;

export interface Wanted {
  /** mm below which nothing may come back, and beyond which it does not matter. */
  readonly near: number;
  readonly far: number;
  /** What a place that is used once already costs, and one that comes back too soon. */
  readonly used: number;
  readonly soon: number;
  /** How often a place may be used at most where another could be taken. */
  readonly often: number;
}

export interface Found extends Laid {
  readonly cost: number;
}

/** Places of the plane with what is seen there. */
interface Points {
  readonly count: number;
  readonly x: Int32Array;
  readonly y: Int32Array;
  readonly seen: Float32Array;
}

/**
 * The pieces of the swatch that agree best with what lies on a cutting, best first.
 *
 * Places are drawn at random and compared at random cells, means over cells first, then moved about by single
 * fine samples: it finds what a full search finds (Kwatra and others 2003, section 4, by Fourier) wherever much of
 * the swatch would do, in time that does not grow with it.
 *
 * @param weigh Whether a cell of the cutting is compared.
 */
export function findPieces(
  quilt: Quilt,
  cutting: Cutting,
  uses: Uses,
  wanted: Wanted,
  random: RandomStream,
  weigh: (i: number, j: number) => boolean,
): Found[] {
  const points = pointsOf(quilt, cutting, random, weigh);
  const likely = bestOf(LIKELY, points.count === 0 ? BEST : TRIES, (_, limit) => {
    const laid = anyPlace(quilt, cutting, random, FINE);
    return { laid, cost: cellDifferenceAt(quilt, points, Math.min(FEW, points.count), laid, limit) };
  });
  const heap = bestOf(4 * BEST, likely.length, (k, limit) => {
    const laid = likely[k];
    return { laid, cost: cellDifferenceAt(quilt, points, points.count, laid, limit) };
  });
  const priced = (found: Found) => ({ ...found, cost: found.cost + priceOf(uses, cutting, wanted, found) });
  const byCost = (a: Found, b: Found) => a.cost - b.cost;
  return heap
    .map(priced)
    .sort(byCost)
    .slice(0, BEST)
    .map((found) => priced(settle(quilt, points, cutting, found)))
    .sort(byCost);
}

/** What it costs that a place comes back soon or often, in units of the mean squared difference. */
export function priceOf(uses: Uses, cutting: Cutting, { near, far, used, soon }: Wanted, laid: Laid): number {
  const known = uses.of(cutting, laid, near, far);
  return used * known.often + soon * known.soon;
}

/** A piece at random that covers the cutting and keeps a cell from the edges of the swatch; `step` fine samples apart. */
export function anyPlace(
  quilt: Quilt,
  { x, y, width, height }: Cutting,
  random: RandomStream,
  step = 1,
): Laid {
  for (;;) {
    const pose = quilt.sheets.length > 1 ? random.below(quilt.sheets.length) : 0;
    const sheet = quilt.sheets[pose];
    const spareX = sheet.width - FINE * (width + 2);
    const spareY = sheet.height - FINE * (height + 2);
    if (spareX < 0 || spareY < 0) continue;
    return {
      pose,
      ox: FINE + step * random.below(Math.floor(spareX / step) + 1) - FINE * x,
      oy: FINE + step * random.below(Math.floor(spareY / step) + 1) - FINE * y,
    };
  }
}

/** Whether a piece lies wholly inside the swatch on the cutting. */
export function fits(quilt: Quilt, { x, y, width, height }: Cutting, { pose, ox, oy }: Laid): boolean {
  const sheet = quilt.sheets[pose];
  const left = FINE * x + ox;
  const top = FINE * y + oy;
  return (
    left >= FINE &&
    top >= FINE &&
    left + FINE * (width + 1) <= sheet.width &&
    top + FINE * (height + 1) <= sheet.height
  );
}

function pointsOf(
  quilt: Quilt,
  cutting: Cutting,
  random: RandomStream,
  weigh: (i: number, j: number) => boolean,
): Points {
  const { width, height, pose, ox, oy } = cutting;
  const there: number[] = [];
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) if (pose[k] >= 0 && weigh(i, j)) there.push(k);
  }
  const count = Math.min(POINTS, there.length);
  for (let k = 0; k < count; k++) {
    const other = k + random.below(there.length - k);
    [there[k], there[other]] = [there[other], there[k]];
  }
  const points = {
    count,
    x: new Int32Array(count),
    y: new Int32Array(count),
    seen: new Float32Array(count * quilt.count),
  };
  for (let p = 0; p < count; p++) {
    const k = there[p];
    points.x[p] = FINE * (cutting.x + (k % width));
    points.y[p] = FINE * (cutting.y + Math.floor(k / width));
    const sheet = quilt.sheets[pose[k]];
    const at = (points.x[p] + ox[k] + (points.y[p] + oy[k]) * sheet.width) * quilt.count;
    points.seen.set(sheet.means.subarray(at, at + quilt.count), p * quilt.count);
  }
  return points;
}

/** Mean squared difference over the points; anything above `limit` where it comes to more. */
function differenceAt(quilt: Quilt, points: Points, { pose, ox, oy }: Laid, limit: number): number {
  const { count: features } = quilt;
  const { means, width } = quilt.sheets[pose];
  const { x, y, seen } = points;
  const count = Math.min(CLOSE, points.count);
  if (count === 0) return 0;
  const most = limit * count;
  let sum = 0;
  for (let p = 0, q = 0; p < count; p++) {
    let at = (x[p] + ox + (y[p] + oy) * width) * features;
    for (let f = 0; f < features; f++, q++, at++) {
      const off = seen[q] - means[at];
      sum += off * off;
    }
    if (sum > most) return Number.POSITIVE_INFINITY;
  }
  return sum / count;
}

/** The same over whole cells, for a piece that lies on them. */
function cellDifferenceAt(
  quilt: Quilt,
  { x, y, seen }: Points,
  count: number,
  { pose, ox, oy }: Laid,
  limit: number,
): number {
  const { count: features } = quilt;
  const { cells, cellsAcross } = quilt.sheets[pose];
  if (count === 0) return 0;
  const most = limit * count;
  const shift = ox / FINE + (oy / FINE) * cellsAcross;
  let sum = 0;
  for (let p = 0, q = 0; p < count; p++) {
    let at = (x[p] / FINE + (y[p] / FINE) * cellsAcross + shift) * features;
    for (let f = 0; f < features; f++, q++, at++) {
      const off = seen[q] - cells[at];
      sum += off * off;
    }
    if (sum > most) return Number.POSITIVE_INFINITY;
  }
  return sum / count;
}

/** The `most` cheapest of `count` pieces, cheapest first; `tried` may give up where one costs `limit` or more. */
function bestOf(
  most: number,
  count: number,
  tried: (k: number, limit: number) => { readonly laid: Laid; readonly cost: number },
): Found[] {
  const best: Found[] = [];
  for (let k = 0; k < count; k++) {
    const limit = best.length < most ? Number.POSITIVE_INFINITY : best[best.length - 1].cost;
    const { laid, cost } = tried(k, limit);
    if (cost >= limit) continue;
    let at = best.length;
    while (at > 0 && best[at - 1].cost > cost) at--;
    best.splice(at, 0, { pose: laid.pose, ox: laid.ox, oy: laid.oy, cost });
    if (best.length > most) best.pop();
  }
  return best;
}

/** Moves a piece about while it agrees better: by cells, by halves, by fine samples. */
function settle(quilt: Quilt, points: Points, cutting: Cutting, start: Found): Found {
  let best = { ...start, cost: differenceAt(quilt, points, start, Number.POSITIVE_INFINITY) };
  for (let step = FINE; step >= 1; step /= 2) {
    for (let moved = true, rounds = 0; moved && rounds < 4; rounds++) {
      moved = false;
      const { ox, oy } = best;
      for (let dy = -step; dy <= step; dy += step) {
        for (let dx = -step; dx <= step; dx += step) {
          const laid = { pose: best.pose, ox: ox + dx, oy: oy + dy };
          if (!fits(quilt, cutting, laid)) continue;
          const cost = differenceAt(quilt, points, laid, best.cost);
          if (cost < best.cost) {
            best = { ...laid, cost };
            moved = true;
          }
        }
      }
    }
  }
  return best;
}
