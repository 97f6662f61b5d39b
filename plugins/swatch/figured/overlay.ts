import { minimumCut, NEVER } from 'tenter';
import type { Cutting, Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** A piece of the swatch laid on the plane: fine sample (FINE * i + ox, FINE * j + oy) of its sheet on cell (i, j). */
export interface Laid {
  readonly pose: number;
  readonly ox: number;
  readonly oy: number;
}

export interface Overlay {
  /** Per cell of the cutting: 1 where the new piece lies. */
  readonly taken: Uint8Array;
  /** What the joins inside the cutting cost before and after. */
  readonly before: number;
  readonly after: number;
}

/** Cells of a cutting that are no question of cost: what is bare is covered all the same, and the edge stays. */
export interface Bound {
  /** 1 where the new piece may not lie. */
  readonly barred?: Uint8Array;
  /** 1 where it must. */
  readonly needed?: Uint8Array;
}

/**
 * The best way to lay a piece over what lies there: bare cells are covered, those along the edge of the cutting
 * and those that are `barred` stay, and between them the join runs where it costs least, old joins that it covers counted as saved (Kwatra and
 * others 2003, section 3.2).
 *
 * Old joins make a cut of four kinds of pairs; it is exact where no piece is nearer to two others than those are to
 * each other, and `before` and `after` are counted anew (V. Kolmogorov and R. Zabih, *What energy functions can be
 * minimized via graph cuts?* 2004).
 */
export function overlay(quilt: Quilt, cutting: Cutting, laid: Laid, bound: Bound = {}): Overlay {
  const { width, height, pose, ox, oy } = cutting;
  const count = width * height;
  const own = new Int32Array(count);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) own[k] = pose[k] < 0 ? 0 : ofPair(quilt, cutting, i, j, k, laid);
  }
  const kept = [new Int32Array(count), new Int32Array(count)];
  const there = [new Int32Array(count), new Int32Array(count)];
  const back = [new Int32Array(count), new Int32Array(count)];
  const unary = new Float64Array(count);
  const pairs = [new Int32Array(count), new Int32Array(count)];
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      for (const down of [0, 1]) {
        if (down ? j + 1 === height : i + 1 === width) continue;
        const n = down ? k + width : k + 1;
        const same = pose[k] === pose[n] && ox[k] === ox[n] && oy[k] === oy[n];
        if (pose[k] < 0 && pose[n] < 0) continue;
        if (pose[n] < 0) there[down][k] = 2 * own[k];
        else if (pose[k] < 0) back[down][k] = 2 * own[n];
        else if (same) there[down][k] = back[down][k] = own[k] + own[n];
        else {
          const [ni, nj] = down ? [i, j + 1] : [i + 1, j];
          kept[down][k] = oldPair(quilt, cutting, i, j, k, n) + oldPair(quilt, cutting, ni, nj, k, n);
          there[down][k] = own[k] + ofPair(quilt, cutting, ni, nj, k, laid);
          back[down][k] = own[n] + ofPair(quilt, cutting, i, j, n, laid);
        }
        unary[k] += back[down][k] - kept[down][k];
        unary[n] -= back[down][k];
        pairs[down][k] = Math.max(0, there[down][k] + back[down][k] - kept[down][k]);
      }
    }
  }
  const first = new Int32Array(count);
  const second = new Int32Array(count);
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      if (pose[k] < 0) first[k] = NEVER;
      else if (bound.barred?.[k]) second[k] = NEVER;
      else if (i === 0 || j === 0 || i === width - 1 || j === height - 1) second[k] = NEVER;
      else if (bound.needed?.[k]) first[k] = NEVER;
      else if (unary[k] > 0) second[k] = unary[k];
      else first[k] = -unary[k];
    }
  }
  const { second: taken } = minimumCut({
    width,
    height,
    first,
    second,
    right: pairs[0],
    rightBack: new Int32Array(count),
    down: pairs[1],
    downBack: new Int32Array(count),
  });
  return { taken, ...costs(cutting, taken, kept, there, back) };
}

function costs(
  { width, height }: Cutting,
  taken: Uint8Array,
  kept: Int32Array[],
  there: Int32Array[],
  back: Int32Array[],
): { before: number; after: number } {
  let before = 0;
  let after = 0;
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      for (const down of [0, 1]) {
        if (down ? j + 1 === height : i + 1 === width) continue;
        const n = down ? k + width : k + 1;
        before += kept[down][k];
        if (!taken[k]) after += taken[n] ? there[down][k] : kept[down][k];
        else if (!taken[n]) after += back[down][k];
      }
    }
  }
  return { before, after };
}

/** What parts the piece of cell k from the new one, at cell (i, j). */
function ofPair(
  quilt: Quilt,
  { x, y, pose, ox, oy }: Cutting,
  i: number,
  j: number,
  k: number,
  laid: Laid,
): number {
  const fx = FINE * (x + i);
  const fy = FINE * (y + j);
  return quilt.between(pose[k], fx + ox[k], fy + oy[k], laid.pose, fx + laid.ox, fy + laid.oy);
}

/** What parts the pieces of cells k and n, at cell (i, j). */
function oldPair(
  quilt: Quilt,
  { x, y, pose, ox, oy }: Cutting,
  i: number,
  j: number,
  k: number,
  n: number,
): number {
  const fx = FINE * (x + i);
  const fy = FINE * (y + j);
  return quilt.between(pose[k], fx + ox[k], fy + oy[k], pose[n], fx + ox[n], fy + oy[n]);
}

/** Lays the piece where the cut says so. */
export function lay(quilt: Quilt, cutting: Cutting, laid: Laid, taken: Uint8Array): void {
  for (let k = 0; k < taken.length; k++) {
    if (!taken[k]) continue;
    quilt.piece[cutting.cell[k]] = quilt.pieceOf(
      laid.pose,
      laid.ox + cutting.homeX[k],
      laid.oy + cutting.homeY[k],
    );
  }
}
