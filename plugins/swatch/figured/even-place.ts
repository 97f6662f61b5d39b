import type { FieldShape } from 'tenter';
import type { Join } from './joins.ts';
import type { Quilt } from './quilt.ts';
import { stepping } from './screened.ts';
import { FINE } from './sheet.ts';

/** How far a figure is sought to either side of where it meets, in fine samples. */
const REACH = 10;
/** Points across the window that is compared, and fine samples between them. */
const POINTS = 9;
const APART = 3;
/** Joins within so many cells of one another, of the same two pieces, are moved alike. */
const ALIKE = 3;
/** mm over which a figure is moved back to its place, as a share of the smaller side of the swatch. */
const SPREAD = 0.15;
/** What it costs to move a figure as far as can be, against what parts it where it stands. */
const PULL = 0.5;

/** A figure is moved where that leaves less than this of what parts it. */
const WORTH = 0.75;

/** Where each cell looks beside its place, mm. */
export interface Moved {
  readonly x: Float32Array;
  readonly y: Float32Array;
}

/** Where nothing is moved, as in a sketch. */
export function unmoved({ width, height }: FieldShape): Moved {
  return { x: new Float32Array(width * height), y: new Float32Array(width * height) };
}

/**
 * Moves the figure beside the joins so that lines run on: what evens out tones, done to places. At each join the
 * shift is found by which the other side agrees best (as Q. Wu and Y. Yu, *Feature matching and deformation for
 * texture synthesis*, 2004, move features to meet), and the plane bends by it, ever less further away.
 */
export function evenPlaces(quilt: Quilt, joins: readonly Join[], side: number): Moved {
  const { shape } = quilt;
  const stepsX = new Float64Array(joins.length);
  const stepsY = new Float64Array(joins.length);
  const known = new Map<string, [number, number]>();
  joins.forEach((join, index) => {
    const block = `${Math.floor(join.x / FINE / ALIKE)},${Math.floor(join.y / FINE / ALIKE)}`;
    const key = `${block},${join.pose},${join.ox},${join.oy},${join.otherPose},${join.otherX},${join.otherY}`;
    let shift = known.get(key);
    if (!shift) {
      shift = shiftAt(quilt, join);
      known.set(key, shift);
    }
    stepsX[index] = (shift[0] * shape.mmPerCellX) / FINE;
    stepsY[index] = (shift[1] * shape.mmPerCellY) / FINE;
  });
  const moved = {
    x: stepping(shape, joins, stepsX, SPREAD * side),
    y: stepping(shape, joins, stepsY, SPREAD * side),
  };
  keepInside(quilt, moved);
  return moved;
}

/** No cell looks beyond the edge of the swatch. */
function keepInside(quilt: Quilt, moved: Moved): void {
  const { shape, piece, sheets, pose, ox, oy } = quilt;
  const { mmPerCellX, mmPerCellY } = shape;
  for (let cell = 0; cell < piece.length; cell++) {
    const own = piece[cell];
    const i = cell % shape.width;
    const j = (cell - i) / shape.width;
    const sheet = sheets[pose[own]].pose;
    const u = (i + 0.5 + ox[own] / FINE) * mmPerCellX;
    const v = (j + 0.5 + oy[own] / FINE) * mmPerCellY;
    moved.x[cell] = Math.max(mmPerCellX / 2 - u, Math.min(sheet.width - mmPerCellX / 2 - u, moved.x[cell]));
    moved.y[cell] = Math.max(mmPerCellY / 2 - v, Math.min(sheet.height - mmPerCellY / 2 - v, moved.y[cell]));
  }
}

/** By how many fine samples the other piece has to look aside to agree best with the first around a join. */
function shiftAt(quilt: Quilt, join: Join): [number, number] {
  const still = differenceOf(quilt, join, 0, 0, Number.POSITIVE_INFINITY);
  const pull = (PULL * still) / REACH ** 2;
  let best: [number, number] = [0, 0];
  let least = still;
  const trial = (dx: number, dy: number) => {
    const price = pull * (dx * dx + dy * dy);
    if (price >= least) return;
    const cost = price + differenceOf(quilt, join, dx, dy, least - price);
    if (cost >= least) return;
    least = cost;
    best = [dx, dy];
  };
  for (let dy = -REACH; dy <= REACH; dy += 2) for (let dx = -REACH; dx <= REACH; dx += 2) trial(dx, dy);
  const [x, y] = best;
  for (let dy = -1; dy <= 1; dy++) for (let dx = -1; dx <= 1; dx++) trial(x + dx, y + dy);
  return least < WORTH * still ? best : [0, 0];
}

function differenceOf(quilt: Quilt, join: Join, dx: number, dy: number, limit: number): number {
  const { count } = quilt;
  const a = quilt.sheets[join.pose];
  const b = quilt.sheets[join.otherPose];
  const reach = (APART * (POINTS - 1)) / 2;
  const x = Math.floor(join.x) - reach;
  const y = Math.floor(join.y) - reach;
  let sum = 0;
  for (let row = 0; row < POINTS; row++) {
    const ay = clamp(y + APART * row + join.oy, a.height);
    const by = clamp(y + APART * row + join.otherY + dy, b.height);
    for (let point = 0; point < POINTS; point++) {
      let p = (clamp(x + APART * point + join.ox, a.width) + ay * a.width) * count;
      let q = (clamp(x + APART * point + join.otherX + dx, b.width) + by * b.width) * count;
      for (let f = 0; f < count; f++, p++, q++) {
        const off = a.features[p] - b.features[q];
        sum += off * off;
      }
    }
    if (sum > limit) return Number.POSITIVE_INFINITY;
  }
  return sum;
}

function clamp(value: number, size: number): number {
  return value < 0 ? 0 : value >= size ? size - 1 : value;
}
