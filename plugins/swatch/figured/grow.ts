import { type Box, cellIndex, fastCount, fieldShape, poissonPoints, type RandomStream } from 'tenter';
import type { Prepared } from '../way.ts';
import { lay, overlay } from './overlay.ts';
import { posesOf } from './pose.ts';
import { BARE, type Cutting, cuttingOf, Quilt } from './quilt.ts';
import { anyPlace, type Found, findPieces, fits, priceOf, type Wanted } from './search.ts';
import { FINE, sheetsOf } from './sheet.ts';
import { Uses } from './uses.ts';

/** The most cells that the composition is made on. */
const MOST_CELLS = 420_000;
/** Pieces tried for a place by the join they would make. */
const CUTS = 3;
/** Re-coverings of the dearest joins, per piece laid at first. */
const MENDS = 3;

export interface Grown {
  readonly quilt: Quilt;
  /** What all joins cost once covered, and in the end. */
  readonly covered: number;
  readonly mended: number;
}

/** mm across a cell of the composition: a hundredth of the swatch, the same for a sketch. */
export function cellOf(width: number, height: number, box: Box): number {
  const fine = Math.min(1, Math.max(0.2, Math.min(width, height) / 100));
  return Math.max(fine, Math.sqrt((box.width * box.height) / MOST_CELLS));
}

/** Covers the torus with pieces of the swatch and covers the dearest joins again. */
export function grow(prepared: Prepared): Grown {
  const { box, width, height } = prepared;
  const shape = fieldShape(box, cellOf(width, height, box), fastCount);
  const poses = posesOf(width, height, prepared.turned, prepared.mirrored);
  const { sheets, count } = sheetsOf(prepared, poses, shape.mmPerCellX, shape.mmPerCellY);
  const quilt = new Quilt(shape, sheets, count);
  const growth = new Growth(quilt, prepared);
  growth.cover();
  const covered = growth.cost();
  growth.mend();
  return { quilt, covered, mended: growth.cost() };
}

class Growth {
  private readonly uses: Uses;
  private readonly random: RandomStream;
  private readonly wanted: Wanted;
  /** Sides of a piece in cells. */
  private readonly across: number;
  private readonly down: number;
  private pieces = 0;

  constructor(
    private readonly quilt: Quilt,
    private readonly prepared: Prepared,
  ) {
    this.uses = new Uses(quilt);
    this.random = prepared.random('figured');
    const { width, height, box } = prepared;
    const ratio = (box.width * box.height) / (width * height);
    const share = ratio <= 1 ? 1 : ratio <= 4 ? 0.7 : 0.5;
    const { shape, sheets } = quilt;
    const most = (side: 'width' | 'height') =>
      Math.max(3, Math.min(...sheets.map((sheet) => Math.floor(sheet[side] / FINE) - 2)));
    this.across = Math.min(shape.width, most('width'), Math.round((share * width) / shape.mmPerCellX));
    this.down = Math.min(shape.height, most('height'), Math.round((share * height) / shape.mmPerCellY));
    const side = Math.sqrt(width * height);
    this.wanted = { near: 0.35 * side, far: 0.9 * side, used: 0.12 };
  }

  /** Lays pieces around the points of a set that leaves no hole, then wherever a hole is left. */
  cover(): void {
    const { quilt, across, down } = this;
    const { mmPerCellX, mmPerCellY, width, height } = quilt.shape;
    const reach = Math.min(across * mmPerCellX, down * mmPerCellY) / 2;
    const points = poissonPoints(this.prepared.box, reach, this.random);
    for (let k = 0; k < points.x.length; k++) {
      const i = Math.round(points.x[k] / mmPerCellX - across / 2);
      const j = Math.round(points.y[k] / mmPerCellY - down / 2);
      this.place(cuttingOf(quilt, i, j, across, down));
      this.prepared.progress((0.4 * k) / points.x.length);
    }
    for (let k = 0; k < width * height; k++) {
      if (quilt.piece[k] !== BARE) continue;
      const i = (k % width) - (across >> 1);
      const j = Math.floor(k / width) - (down >> 1);
      this.place(cuttingOf(quilt, i, j, across, down));
    }
  }

  private place(cutting: Cutting): void {
    if (!cutting.pose.includes(-1)) return;
    this.pieces++;
    const all = () => true;
    let found = findPieces(this.quilt, cutting, this.uses, this.wanted, this.random, all);
    for (let ease = 0.5; found.length === 0 && ease > 0.05; ease /= 2) {
      const eased = { ...this.wanted, near: this.wanted.near * ease };
      found = findPieces(this.quilt, cutting, this.uses, eased, this.random, all);
    }
    if (found.length === 0) found = [{ ...anyPlace(this.quilt, cutting, this.random), cost: 0 }];
    let best: { found: Found; taken: Uint8Array; price: number } | undefined;
    for (const one of found.slice(0, CUTS)) {
      const { taken, before, after } = overlay(this.quilt, cutting, one);
      const price = (after - before) * (1 + one.cost * 0.2);
      if (!best || price < best.price) best = { found: one, taken, price };
    }
    this.commit(cutting, best!.found, best!.taken);
  }

  private commit(cutting: Cutting, found: Found, taken: Uint8Array): void {
    this.uses.count(cutting, taken, -1);
    lay(this.quilt, cutting, found, taken);
    this.uses.count(cutting, taken, 1);
  }

  cost(): number {
    let sum = 0;
    for (let k = 0; k < this.quilt.piece.length; k++) sum += this.quilt.joinCost(k);
    return sum;
  }

  /** Covers the dearest joins again wherever that makes them cheaper. */
  mend(): void {
    const { quilt, random } = this;
    const { width, height } = quilt.shape;
    const blocks = new Dear(quilt);
    const budget = MENDS * this.pieces;
    for (let k = 0; k < budget; k++) {
      const at = blocks.dearest();
      if (at < 0) break;
      const share = random.between(0.35, 1);
      const w = Math.max(3, Math.min(width, Math.round(this.across * share)));
      const h = Math.max(3, Math.min(height, Math.round(this.down * share)));
      const i = (at % width) - (w >> 1) + Math.round(random.between(-0.2, 0.2) * w);
      const j = Math.floor(at / width) - (h >> 1) + Math.round(random.between(-0.2, 0.2) * h);
      const gained = this.cover2(cuttingOf(quilt, i, j, w, h));
      if (gained) blocks.renew();
      blocks.tried(at, gained);
      if (k % 16 === 0) this.prepared.progress(0.4 + (0.5 * k) / budget);
    }
  }

  private cover2(cutting: Cutting): boolean {
    const { quilt, random } = this;
    const { width, height } = cutting;
    // What is to be covered, the middle, is not compared.
    const ring = (i: number, j: number) =>
      Math.abs(i + 0.5 - width / 2) > 0.2 * width || Math.abs(j + 0.5 - height / 2) > 0.2 * height;
    const found = findPieces(quilt, cutting, this.uses, this.wanted, random, ring).slice(0, CUTS);
    for (const one of this.neighbours(cutting)) found.push(one);
    let best: { found: Found; taken: Uint8Array; gain: number } | undefined;
    for (const one of found) {
      const { taken, before, after } = overlay(quilt, cutting, one);
      const gain = before - after;
      if (gain > 0 && (!best || gain > best.gain)) best = { found: one, taken, gain };
    }
    if (!best) return false;
    this.commit(cutting, best.found, best.taken);
    return true;
  }

  /** The pieces that lie there already: one of them may grow. */
  private neighbours(cutting: Cutting): Found[] {
    const seen = new Map<string, Found & { cells: number }>();
    for (let k = 0; k < cutting.cell.length; k++) {
      const [pose, ox, oy] = [cutting.pose[k], cutting.ox[k], cutting.oy[k]];
      const key = `${pose},${ox},${oy}`;
      const known = seen.get(key);
      if (known) known.cells++;
      else seen.set(key, { pose, ox, oy, cost: 0, cells: 1 });
    }
    return [...seen.values()]
      .filter((one) => fits(this.quilt, cutting, one))
      .filter((one) => priceOf(this.uses, cutting, this.wanted, one) < Number.POSITIVE_INFINITY)
      .sort((a, b) => b.cells - a.cells)
      .slice(0, 2);
  }
}

/** Cells across a block by which the dearest joins are looked for. */
const BLOCK = 8;

/** Where joins cost most. */
class Dear {
  private cost: Float64Array;
  private readonly weary: Float64Array;
  private readonly across: number;
  private readonly down: number;

  constructor(private readonly quilt: Quilt) {
    this.across = Math.ceil(quilt.shape.width / BLOCK);
    this.down = Math.ceil(quilt.shape.height / BLOCK);
    this.cost = new Float64Array(this.across * this.down);
    this.weary = new Float64Array(this.across * this.down).fill(1);
    this.renew();
  }

  renew(): void {
    const { width } = this.quilt.shape;
    this.cost = new Float64Array(this.across * this.down);
    for (let k = 0; k < this.quilt.piece.length; k++) {
      const block = Math.floor((k % width) / BLOCK) + Math.floor(k / width / BLOCK) * this.across;
      this.cost[block] += this.quilt.joinCost(k);
    }
  }

  /** The cell in the middle of the block whose joins cost most, those tried in vain counted less; -1 where none cost. */
  dearest(): number {
    let best = -1;
    let most = 0;
    for (let block = 0; block < this.cost.length; block++) {
      if (this.cost[block] * this.weary[block] <= most) continue;
      most = this.cost[block] * this.weary[block];
      best = block;
    }
    if (best < 0) return -1;
    const { shape } = this.quilt;
    const i = Math.min(shape.width - 1, (best % this.across) * BLOCK + BLOCK / 2);
    const j = Math.min(shape.height - 1, Math.floor(best / this.across) * BLOCK + BLOCK / 2);
    return cellIndex(shape, i, j);
  }

  tried(at: number, gained: boolean): void {
    const { width } = this.quilt.shape;
    const block = Math.floor((at % width) / BLOCK) + Math.floor(at / width / BLOCK) * this.across;
    this.weary[block] *= gained ? 0.8 : 0.4;
  }
}
