import type { Notes } from './lines-pass.ts';
import type { SheetRates } from './rates.ts';
import type { Paint, Sheet } from './sheet.ts';

/** Water below capacity dries more slowly the less of it is left. */
const BOUND = 0.6;
/** Running water keeps paint from settling: half as much settles at an eighth of a film per reference step. */
const STIRRING = 8;
/** Water that just creeps lifts this share of what it could. */
const STILL_LIFT = 0.02;
/** Below this nothing settles any more. */
const TRACE = 1e-6;
/** The most of a cell's paint that changes places in a step. */
const MOST = 0.5;

/** What happens within each cell: water dries, paint settles from it, is lifted by it and stays where it is gone. */
export function dryAndSettle(sheet: Sheet, rates: SheetRates, { flow, dry }: Notes): void {
  const { water, paper, air, afloat, settled, second } = sheet;
  const { capacity } = paper;
  const { drying, dryingAtEdges, fixing, pace } = rates;
  for (let k = 0; k < water.length; k++) {
    const depth = water[k] - capacity[k];
    const off = drying * air[k];
    if (depth <= 0) {
      const left = water[k] - (BOUND * off * water[k]) / capacity[k];
      water[k] = Math.max(left, 0);
      if (afloat.amount[k] > TRACE) settle(afloat, settled, k, Math.min(fixing, MOST), 0);
      if (second) exchange(second, k, fixing, 0);
      continue;
    }
    const left = water[k] - off * (1 + dryingAtEdges * dry[k]);
    water[k] = Math.max(left, 0);
    const running = flow[k] / pace;
    const dense = afloat.amount[k] / (depth + 0.3);
    const down = ((rates.settling / (1 + STIRRING * running)) * (1 + 0.5 * dense * dense)) / (0.15 + depth);
    const stirred = 2 * running + STILL_LIFT;
    const up = rates.lifting * Math.min(stirred, 1);
    spread(afloat, k, depth, rates.spreading);
    settle(afloat, settled, k, Math.min(down, MOST), Math.min(up, MOST));
    if (second) exchange(second, k, down, up);
  }
}

/** Paint that spreads both ways comes from further apart, though the mean of where it came from stays. */
function spread(paint: Paint, k: number, depth: number, spreading: number): void {
  const wide = spreading * depth;
  paint.square[k] += 4 * Math.min(wide, 0.09) * paint.amount[k];
}

function settle(afloat: Paint, settled: Paint, k: number, down: number, up: number): void {
  trade(afloat.amount, settled.amount, k, down, up);
  trade(afloat.wayX, settled.wayX, k, down, up);
  trade(afloat.wayY, settled.wayY, k, down, up);
  trade(afloat.square, settled.square, k, down, up);
}

function exchange(
  { afloat, settled }: { readonly afloat: Float32Array; readonly settled: Float32Array },
  k: number,
  down: number,
  up: number,
): void {
  trade(afloat, settled, k, Math.min(down, MOST), Math.min(up, MOST));
}

function trade(from: Float32Array, to: Float32Array, k: number, down: number, up: number): void {
  const change = up * to[k] - down * from[k];
  from[k] += change;
  to[k] -= change;
}
