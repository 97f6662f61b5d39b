import type { RandomStream } from 'tenter';
import type { Laid } from './overlay.ts';
import type { Cutting, Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';
import type { Uses } from './uses.ts';

/** Places of the swatch that are tried for a piece, and places of the plane where they are compared. */
const TRIES = 2200;
const POINTS = 200;
/** How many of them are tried nearby too. */
const BEST = 10;

export interface Wanted {
  /** mm below which nothing may come back, and beyond which it does not matter. */
  readonly near: number;
  readonly far: number;
  /** What a place used once costs, in units of the mean difference. */
  readonly used: number;
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
  const heap: Found[] = [];
  for (let k = 0; k < TRIES; k++) {
    const laid = anyPlace(quilt, cutting, random);
    const limit = heap.length < 6 * BEST ? Number.POSITIVE_INFINITY : heap[heap.length - 1].cost;
    const cost = differenceAt(quilt, points, laid, limit);
    if (cost < limit) insert(heap, { ...laid, cost }, 6 * BEST);
    if (points.count === 0 && heap.length >= BEST) break;
  }
  const fitting: Found[] = [];
  for (const found of heap) {
    if (fitting.length === BEST) break;
    const price = priceOf(uses, cutting, wanted, found);
    if (price < Number.POSITIVE_INFINITY) fitting.push({ ...found, cost: found.cost + price });
  }
  return fitting
    .map((found) => settle(quilt, points, cutting, found))
    .map((found) => ({ ...found, cost: found.cost + priceOf(uses, cutting, wanted, found) }))
    .filter(({ cost }) => cost < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.cost - b.cost);
}

/** What it costs that a place comes back soon or often; infinite where too soon. */
export function priceOf(
  uses: Uses,
  { x, y, width, height }: Cutting,
  { near, far, used }: Wanted,
  laid: Laid,
): number {
  const { nearest, often } = uses.of(x, y, width, height, laid);
  if (nearest < near) return Number.POSITIVE_INFINITY;
  const soon = nearest < far ? (far - nearest) / (far - near) : 0;
  return used * (often + 2 * soon);
}

/** A piece at random that covers the cutting and keeps a cell from the edges of the swatch. */
export function anyPlace(quilt: Quilt, { x, y, width, height }: Cutting, random: RandomStream): Laid {
  for (;;) {
    const pose = quilt.sheets.length > 1 ? random.below(quilt.sheets.length) : 0;
    const sheet = quilt.sheets[pose];
    const spareX = sheet.width - FINE * (width + 2);
    const spareY = sheet.height - FINE * (height + 2);
    if (spareX < 0 || spareY < 0) continue;
    return {
      pose,
      ox: FINE + random.below(spareX + 1) - FINE * x,
      oy: FINE + random.below(spareY + 1) - FINE * y,
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
  const { count, x, y, seen } = points;
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

function insert(heap: Found[], found: Found, most: number): void {
  let at = heap.length;
  while (at > 0 && heap[at - 1].cost > found.cost) at--;
  heap.splice(at, 0, found);
  if (heap.length > most) heap.pop();
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
