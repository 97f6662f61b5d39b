import type { CutCosts } from './cut-costs.ts';
import { type Corner, CutSearch, type Way } from './cut-search.ts';

/**
 * How a cut ends: `open` anywhere at both ends of the strip; `cyclic` where it began, the strip's ends being
 * joined; `turned` where it began, and the same when the strip is turned half round about its middle.
 */
export type CutKind = 'open' | 'cyclic' | 'turned';

/** A cut through a strip. */
export interface Cut {
  readonly kind: CutKind;
  readonly cost: number;
  /** Corners from cell row 0 on; a cyclic cut may run a little before row 0 and beyond the last. */
  readonly corners: readonly Corner[];
  /** False where the search was ended before the cheapest closed cut was proven. */
  readonly isLeast: boolean;
}

/** A cut may turn back over the place where the strip closes round by so many of its widths. */
const OVERHANG = 2;
/** Searches for a closed cut, at most. */
const MOST_SEARCHES = 40;

/** The cheapest cut that parts the long sides of a strip. */
export function shortestCut(costs: CutCosts, kind: CutKind): Cut {
  if (kind === 'turned') return turnedCut(costs);
  return kind === 'open' ? openCut(costs) : cyclicCut(costs);
}

function openCut(costs: CutCosts): Cut {
  const whole = { low: 1, high: costs.width - 1 };
  const search = new CutSearch(costs, costs.length);
  const way = search.find({ row: 0, ...whole }, { row: costs.length, ...whole })!;
  return { kind: 'open', ...way, isLeast: true };
}

/** Corners that a closed cut may pass row 0 at, and the least that it then costs. */
interface Share {
  readonly low: number;
  readonly high: number;
  readonly way: Way;
}

/**
 * The cheapest cut round a cylinder: the cheapest of those from a corner of row 0 to the same corner one round
 * further. A way from any of several corners to any of them costs no more than each closed one among them; so
 * shares of the row that cannot beat the best closed one are left out, the others halved (branch and bound).
 */
function cyclicCut(costs: CutCosts): Cut {
  const { width, length } = costs;
  const overhang = Math.min(length - 1, OVERHANG * width);
  const search = new CutSearch(costs, length + 2 * overhang, overhang);
  const find = (low: number, high: number): Share => {
    const way = search.find({ row: overhang, low, high }, { row: overhang + length, low, high })!;
    return { low, high, way };
  };
  let searches = 1;
  let best: Way | undefined;
  const open = [find(1, width - 1)];
  while (open.length > 0) {
    const [share] = open.splice(leastOf(open), 1);
    if (best && share.way.cost >= best.cost) break;
    if (best && searches >= MOST_SEARCHES) return cyclicOf(best, overhang, false);
    const { low, high, way } = share;
    const [first, last] = [way.corners[0].i, way.corners.at(-1)!.i];
    if (first === last) {
      best = way;
      continue;
    }
    const closed = find(first, first).way;
    if (!best || closed.cost < best.cost) best = closed;
    const middle = Math.max(low, Math.min(high - 1, (first + last) >> 1));
    open.push(find(low, middle), find(middle + 1, high));
    searches += 3;
  }
  return cyclicOf(best!, overhang, true);
}

function leastOf(shares: readonly Share[]): number {
  return shares.reduce((least, { way }, k) => (way.cost < shares[least].way.cost ? k : least), 0);
}

function cyclicOf({ cost, corners }: Way, overhang: number, isLeast: boolean): Cut {
  return {
    kind: 'cyclic',
    cost,
    isLeast,
    corners: corners.map(({ i, row }) => ({ i, row: row - overhang })),
  };
}

/**
 * The cheapest cut that is its own image when the strip is turned half round. It passes the two places that
 * the turn leaves where they are, in the middle of the strip at row 0 and half way along; between them it is the
 * cheapest, on the other half it is turned. Among cuts of which each half stays in its half.
 */
function turnedCut(costs: CutCosts): Cut {
  const { width, length } = costs;
  const [middle, half] = [width / 2, length >> 1];
  const at = { low: middle, high: middle };
  const way =
    half === 0
      ? { cost: 0, corners: [{ i: middle, row: 0 }] }
      : new CutSearch(costs, half).find({ row: 0, ...at }, { row: half, ...at })!;
  const turned = way.corners.map(({ i, row }) => ({ i: width - i, row: length - row })).reverse();
  // Of an odd length the middle lies half way along one more step.
  const isOdd = length % 2 === 1;
  const cost = 2 * way.cost + (isOdd ? costs.across[middle + half * width] : 0);
  const corners = [...way.corners, ...(isOdd ? turned : turned.slice(1))];
  return { kind: 'turned', cost, corners, isLeast: true };
}

/** Of each cell 0 where it lies before the cut (on the side of column 0), 1 beyond it. */
export function sidesOf(cut: Cut, width: number, length: number): Uint8Array {
  const isWalled = wallsOf(cut, width, length);
  const sides = new Uint8Array(width * length).fill(1);
  const isRound = cut.kind !== 'open';
  const stack = new Int32Array(width * length);
  let count = 0;
  const visit = (cell: number) => {
    if (sides[cell] === 0) return;
    sides[cell] = 0;
    stack[count++] = cell;
  };
  for (let j = 0; j < length; j++) visit(j * width);
  while (count > 0) {
    const cell = stack[--count];
    const i = cell % width;
    const below = cell + width < width * length ? cell + width : isRound ? i : -1;
    const above = cell >= width ? cell - width : isRound ? cell + width * (length - 1) : -1;
    if (i > 0 && !(isWalled[cell] & 1)) visit(cell - 1);
    if (i < width - 1 && !(isWalled[cell + 1] & 1)) visit(cell + 1);
    if (above >= 0 && !(isWalled[cell] & 2)) visit(above);
    if (below >= 0 && !(isWalled[below] & 2)) visit(below);
  }
  return sides;
}

/** Of each cell: 1 for a wall before it across the strip, 2 for one before it along the strip. */
function wallsOf({ corners }: Cut, width: number, length: number): Uint8Array {
  const walls = new Uint8Array(width * length);
  const rowOf = (row: number) => ((row % length) + length) % length;
  for (let k = 1; k < corners.length; k++) {
    const [from, to] = [corners[k - 1], corners[k]];
    if (from.i === to.i) walls[rowOf(Math.min(from.row, to.row)) * width + from.i] |= 1;
    else walls[rowOf(from.row) * width + Math.min(from.i, to.i)] |= 2;
  }
  return walls;
}
