import { type Box, type FieldShape, fieldShape, modulo, visitCopies } from 'tenter';
import type { Drop } from './drop.ts';
import { type Profile, REACH, RINGS } from './profile.ts';
import { ANGLES, type Outlines, turnOf } from './turn.ts';

/** All drops of a repeat as maps of the sheet: where the paint at a place came from, and went. */
export interface DropMaps {
  readonly box: Box;
  readonly drops: readonly Drop[];
  readonly outlines: Outlines;
  readonly bank: readonly Profile[];
  /** Which profile of the bank each drop has. */
  readonly kinds: Uint8Array;
  readonly index: DropIndex;
}

/** Copies of drops sorted into square cells of the box, in each cell by the order they fell. */
interface DropIndex {
  readonly shape: FieldShape;
  /** The copies over cell k are entries `starts[k]` up to `starts[k + 1] - 1` of what follows. */
  readonly starts: Int32Array;
  readonly drop: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** mm: smaller cells hold fewer drops each, and more entries in all. */
const CELL = 2.5;

export function openMaps(
  box: Box,
  drops: readonly Drop[],
  outlines: Outlines,
  bank: readonly Profile[],
  kinds: Uint8Array,
): DropMaps {
  return { box, drops, outlines, bank, kinds, index: indexDrops(box, drops, outlines.widest) };
}

function indexDrops(box: Box, drops: readonly Drop[], widest: Float64Array): DropIndex {
  const shape = fieldShape(box, CELL);
  const { width, height, mmPerCellX, mmPerCellY } = shape;
  const lists: number[][] = Array.from({ length: width * height }, () => []);
  const xs: number[] = [];
  const ys: number[] = [];
  const ids: number[] = [];
  drops.forEach(({ x, y }, k) => {
    const reach = widest[k] * REACH;
    const around = { left: -reach, top: -reach, right: box.width + reach, bottom: box.height + reach };
    visitCopies(box.lattice, x, y, around, (cx, cy) => {
      const copy = ids.length;
      ids.push(k);
      xs.push(cx);
      ys.push(cy);
      const lastRow = Math.min(height - 1, Math.floor((cy + reach) / mmPerCellY));
      const lastColumn = Math.min(width - 1, Math.floor((cx + reach) / mmPerCellX));
      for (let j = Math.max(0, Math.floor((cy - reach) / mmPerCellY)); j <= lastRow; j++)
        for (let i = Math.max(0, Math.floor((cx - reach) / mmPerCellX)); i <= lastColumn; i++)
          if (touches(cx, cy, reach, i * mmPerCellX, j * mmPerCellY, mmPerCellX, mmPerCellY))
            lists[i + j * width].push(copy);
    });
  });
  const starts = new Int32Array(lists.length + 1);
  lists.forEach((list, k) => {
    starts[k + 1] = starts[k] + list.length;
  });
  const order = lists.flat();
  return {
    shape,
    starts,
    drop: Int32Array.from(order, (copy) => ids[copy]),
    x: Float64Array.from(order, (copy) => xs[copy]),
    y: Float64Array.from(order, (copy) => ys[copy]),
  };
}

function touches(
  x: number,
  y: number,
  reach: number,
  left: number,
  top: number,
  width: number,
  height: number,
): boolean {
  const dx = Math.max(left - x, 0, x - left - width);
  const dy = Math.max(top - y, 0, y - top - height);
  return dx * dx + dy * dy <= reach * reach;
}

/** A point on its way through the maps, anywhere on the plane, mm. */
export interface Traveller {
  x: number;
  y: number;
}

/** Told of each drop that a traveller passes: its number, the way from its centre (mm) and the part of its radius. */
export type Meet = (drop: number, dx: number, dy: number, part: number, outline: Direction) => void;

/**
 * Takes a point back to where its paint was before the drops that fell after number `after`, the last
 * first; -1 takes it back through all.
 */
export function pullBack(maps: DropMaps, point: Traveller, after: number, meet?: Meet): void {
  const { index, drops, outlines, bank, kinds } = maps;
  const { shape, starts } = index;
  const { lattice } = maps.box;
  let next = drops.length;
  while (next > after + 1) {
    // The copy of the point in the box, and the cell of the index it lies in.
    const { ax, ay, bx, by } = lattice;
    let m: number;
    let n: number;
    if (bx === 0) {
      m = Math.floor(point.x / ax);
      n = Math.floor((point.y - m * ay) / by);
    } else {
      n = Math.floor(point.y / by);
      m = Math.floor((point.x - n * bx) / ax);
    }
    const awayX = m * ax + n * bx;
    const awayY = m * ay + n * by;
    const x = point.x - awayX;
    const y = point.y - awayY;
    const column = Math.min(shape.width - 1, Math.max(0, Math.floor(x / shape.mmPerCellX)));
    const row = Math.min(shape.height - 1, Math.max(0, Math.floor(y / shape.mmPerCellY)));
    const cell = column + row * shape.width;
    let moved = false;
    for (let entry = starts[cell + 1] - 1; entry >= starts[cell] && !moved; entry--) {
      const k = index.drop[entry];
      if (k >= next) continue;
      if (k <= after) return;
      next = k;
      const cx = index.x[entry];
      const cy = index.y[entry];
      const dx = x - cx;
      const dy = y - cy;
      const reach = outlines.widest[k] * REACH;
      const square = dx * dx + dy * dy;
      if (square >= reach * reach) continue;
      const at = lookUp(outlines, k, dx, dy);
      const part = Math.sqrt(square) / at.radius;
      if (part >= REACH) continue;
      const profile = bank[kinds[k]];
      const place = part * (RINGS / REACH);
      const ring = place | 0;
      const between = place - ring;
      const weak =
        profile.weakSource[ring] + between * (profile.weakSource[ring + 1] - profile.weakSource[ring]);
      const strong =
        profile.strongSource[ring] + between * (profile.strongSource[ring + 1] - profile.strongSource[ring]);
      const { stain } = drops[k];
      const source = Math.sqrt(
        stain + (1 - stain) * (weak * weak + at.rim * (strong * strong - weak * weak)),
      );
      meet?.(k, dx, dy, part, at);
      point.x = cx + dx * source + awayX;
      point.y = cy + dy * source + awayY;
      moved = true;
    }
    if (!moved) return;
  }
}

/** Takes a point forward to where its paint is after the drops that fell after number `after`. */
export function pushOn(maps: DropMaps, point: Traveller, after: number): void {
  const { index, outlines } = maps;
  const { shape, starts } = index;
  const { lattice } = maps.box;
  let last = after;
  for (let moved = true; moved; ) {
    moved = false;
    const { ax, ay, bx, by } = lattice;
    const m =
      bx === 0 ? Math.floor(point.x / ax) : Math.floor((point.x - Math.floor(point.y / by) * bx) / ax);
    const n = bx === 0 ? Math.floor((point.y - m * ay) / by) : Math.floor(point.y / by);
    const awayX = m * ax + n * bx;
    const awayY = m * ay + n * by;
    const x = point.x - awayX;
    const y = point.y - awayY;
    const cell =
      modulo(Math.floor(x / shape.mmPerCellX), shape.width) +
      modulo(Math.floor(y / shape.mmPerCellY), shape.height) * shape.width;
    for (let entry = starts[cell]; entry < starts[cell + 1] && !moved; entry++) {
      const k = index.drop[entry];
      if (k <= last) continue;
      last = k;
      const dx = x - index.x[entry];
      const dy = y - index.y[entry];
      const at = lookUp(outlines, k, dx, dy);
      const part = Math.hypot(dx, dy) / at.radius;
      if (part >= REACH || part === 0) continue;
      const scale = outwardScale(maps, k, at.rim, part);
      point.x = index.x[entry] + dx * scale + awayX;
      point.y = index.y[entry] + dy * scale + awayY;
      moved = true;
    }
  }
}

/** By how much paint at `part` of the way was carried outward: the inverse of `source`, by halving. */
function outwardScale(maps: DropMaps, k: number, rim: number, part: number): number {
  let low = part;
  let high: number = REACH;
  for (let halving = 0; halving < 22; halving++) {
    const middle = 0.5 * (low + high);
    if (middle * sourceAt(maps, k, rim, middle) < part) low = middle;
    else high = middle;
  }
  return high / part;
}

/** Where the paint at `part` came from, as a share of the way in, for drop k in a direction with this rim. */
export function sourceAt({ bank, kinds, drops }: DropMaps, k: number, rim: number, part: number): number {
  if (part >= REACH) return 1;
  const { weakSource, strongSource } = bank[kinds[k]];
  const place = part * (RINGS / REACH);
  const ring = place | 0;
  const weak = weakSource[ring] + (place - ring) * (weakSource[ring + 1] - weakSource[ring]);
  const strong = strongSource[ring] + (place - ring) * (strongSource[ring + 1] - strongSource[ring]);
  const { stain } = drops[k];
  return Math.sqrt(stain + (1 - stain) * (weak * weak + rim * (strong * strong - weak * weak)));
}

/** A drop seen in one direction from its centre. */
export interface Direction {
  /** mm */
  radius: number;
  /** 0 no rim to 1. */
  rim: number;
  /** How far a finger reaches here: standard deviation about 1. */
  finger: number;
}

/** Kept from call to call; always written before it is read. */
const found: Direction = { radius: 0, rim: 0, finger: 0 };

/** The outline of drop k in a direction. */
export function lookUp({ radius, rim, finger }: Outlines, k: number, dx: number, dy: number): Direction {
  const place = turnOf(dx, dy) * (ANGLES / 4);
  const angle = place | 0;
  const part = place - angle;
  const here = k * ANGLES + (angle % ANGLES);
  const next = k * ANGLES + ((angle + 1) % ANGLES);
  found.radius = radius[here] + part * (radius[next] - radius[here]);
  found.rim = rim[here] + part * (rim[next] - rim[here]);
  found.finger = finger[here] + part * (finger[next] - finger[here]);
  return found;
}
