import { poissonPoints, type RandomStream } from 'tenter';
import type { Prepared } from '../way.ts';
import { Dear } from './dear.ts';
import { type Laid, lay, type Overlay, overlay } from './overlay.ts';
import type { Plan } from './plan.ts';
import { BARE, type Cutting, cuttingOf, Quilt } from './quilt.ts';
import { type Found, findPieces, fits, type Wanted } from './search.ts';
import { FINE, type Sheet, sheetsOf } from './sheet.ts';
import { Uses } from './uses.ts';

/** Pieces tried for a place by the join they would make. */
const CUTS = 2;
/** Re-coverings of the dearest joins, per piece laid at first. */
const MENDS = 2.5;
const MOST_MENDS = 1400;
/** Places that come back too soon and are covered again. */
const MOST_PARTED = 400;

/** The most that a piece is longer than its area's side where the figure runs one way, and the most of the swatch it takes. */
const MOST_LONG = 2;
const MOST_SHARE = 0.88;

export interface Grown {
  readonly quilt: Quilt;
  /** What all joins cost once covered, and in the end. */
  readonly covered: number;
  readonly mended: number;
}

/** Covers the torus with pieces of the swatch and covers the dearest joins again. */
export function grow(prepared: Prepared, plan: Plan): Grown {
  const { shape, poses } = plan;
  const { sheets, count } = sheetsOf(prepared, poses, shape.mmPerCellX, shape.mmPerCellY);
  const quilt = new Quilt(shape, sheets, count);
  const growth = new Growth(quilt, prepared, plan);
  growth.cover();
  const covered = growth.cost();
  if (prepared.quality === 'finished') {
    growth.part();
    growth.mend();
  }
  return { quilt, covered, mended: growth.cost() };
}

/** How much longer than wide a piece is to be, by how much less the figure changes down than across: 1 where alike. */
function lengthOf({ features }: Sheet, count: number): number {
  let across = 1e-9;
  let down = 1e-9;
  for (let k = count - 2; k < features.length; k += count) {
    across += features[k] ** 2;
    down += features[k + 1] ** 2;
  }
  return Math.sqrt(Math.sqrt(across / down));
}

/** What a cell costs that shows again what is seen too near: as much as a join where nothing agrees. */
const TOO_SOON = 8000;

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
    private readonly plan: Plan,
  ) {
    this.uses = new Uses(quilt);
    this.random = prepared.random('figured');
    const { width, height, box } = plan;
    const ratio = (box.width * box.height) / (width * height);
    const share = ratio <= 1 ? 1 : ratio <= 4 ? 0.7 : 0.5;
    const { shape, sheets } = quilt;
    const most = (side: 'width' | 'height') =>
      Math.max(1, Math.min(...sheets.map((sheet) => Math.floor(sheet[side] / FINE) - 2)));
    const long = Math.min(MOST_LONG, Math.max(1 / MOST_LONG, lengthOf(sheets[0], quilt.count)));
    const sideOf = (part: number, mm: number, cell: number) =>
      Math.max(1, Math.round((Math.min(Math.max(share, MOST_SHARE), part) * mm) / cell));
    this.across = Math.min(shape.width, most('width'), sideOf(share / long, width, shape.mmPerCellX));
    this.down = Math.min(shape.height, most('height'), sideOf(share * long, height, shape.mmPerCellY));
    const side = Math.sqrt(width * height);
    this.wanted = {
      near: 0.25 * side,
      far: 0.7 * side,
      used: 0.25 * Math.min(1, 10 / ratio),
      soon: 3,
      often: Math.max(2, Math.ceil((2.5 * ratio) / sheets.length)),
    };
  }

  /** Lays pieces around the points of a set that leaves no hole, then wherever a hole is left. */
  cover(): void {
    const { quilt, across, down } = this;
    const { mmPerCellX, mmPerCellY, width, height } = quilt.shape;
    // As wide as high where pieces are square.
    const wider = (down * mmPerCellY) / (across * mmPerCellX);
    const { box } = this.plan;
    const stretched = {
      ...box,
      width: box.width * wider,
      lattice: { ...box.lattice, ax: box.lattice.ax * wider, bx: box.lattice.bx * wider },
    };
    const points = poissonPoints(stretched, (down * mmPerCellY) / 2, this.random);
    for (let k = 0; k < points.x.length; k++) {
      const i = Math.round(points.x[k] / wider / mmPerCellX - across / 2);
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
    const found = findPieces(this.quilt, cutting, this.uses, this.wanted, this.random, all);
    let best: { found: Found; taken: Uint8Array; price: number } | undefined;
    for (const one of found.slice(0, CUTS)) {
      const barred = this.barred(cutting, one);
      const { taken, before, after } = overlay(this.quilt, cutting, one, { barred });
      const price = after - before + TOO_SOON * barred.reduce((sum, no, k) => sum + (no && taken[k]), 0);
      if (!best || price < best.price) best = { found: one, taken, price };
    }
    this.commit(cutting, best!.found, best!.taken);
  }

  private over(cutting: Cutting, laid: Laid): Overlay {
    return overlay(this.quilt, cutting, laid, { barred: this.barred(cutting, laid) });
  }

  private barred(cutting: Cutting, laid: Laid): Uint8Array {
    return this.uses.barred(cutting, laid, this.wanted.near, this.wanted.often);
  }

  private commit(cutting: Cutting, found: Found, taken: Uint8Array): void {
    this.uses.forget(cutting, taken);
    lay(this.quilt, cutting, found, taken);
    this.uses.note(cutting, taken);
  }

  cost(): number {
    let sum = 0;
    for (let k = 0; k < this.quilt.piece.length; k++) sum += this.quilt.joinCost(k);
    return sum;
  }

  /** Covers the dearest joins again wherever that makes them cheaper. */
  mend(): void {
    const { quilt, random } = this;
    const { width } = quilt.shape;
    const blocks = new Dear(quilt);
    const budget = Math.min(MOST_MENDS, MENDS * this.pieces);
    for (let k = 0; k < budget; k++) {
      const at = blocks.dearest();
      if (at < 0) break;
      const share = random.between(0.35, 1);
      const w = Math.min(this.across, Math.max(3, Math.round(this.across * share)));
      const h = Math.min(this.down, Math.max(3, Math.round(this.down * share)));
      const i = (at % width) - (w >> 1) + Math.round(random.between(-0.2, 0.2) * w);
      const j = Math.floor(at / width) - (h >> 1) + Math.round(random.between(-0.2, 0.2) * h);
      const gained = this.mendAt(cuttingOf(quilt, i, j, w, h));
      if (gained) blocks.renew(i, j, w, h);
      blocks.tried(at, gained);
      if (k % 16 === 0) this.prepared.progress(0.4 + (0.5 * k) / budget);
    }
  }

  /** Covers what comes back too soon with something else, whatever the joins cost. */
  part(): void {
    const { quilt, across, down } = this;
    const { width, height } = quilt.shape;
    const all = cuttingOf(quilt, 0, 0, width, height);
    const soon = this.uses.tooNear(all, this.wanted.near);
    for (let k = 0, left = Math.min(MOST_PARTED, this.pieces); k < soon.length && left > 0; k++) {
      if (!soon[k]) continue;
      left--;
      const w = Math.min(across, Math.max(3, Math.round(across * 0.6)));
      const h = Math.min(down, Math.max(3, Math.round(down * 0.6)));
      const i = (k % width) - (w >> 1);
      const j = Math.floor(k / width) - (h >> 1);
      const cutting = cuttingOf(quilt, i, j, w, h);
      const needed = this.uses.tooNear(cutting, this.wanted.near);
      if (!needed.includes(1)) continue;
      let best: { found: Found; taken: Uint8Array; price: number } | undefined;
      for (const found of findPieces(quilt, cutting, this.uses, this.wanted, this.random, () => true)) {
        const barred = this.barred(cutting, found);
        const { taken, before, after } = overlay(quilt, cutting, found, { barred, needed });
        const price =
          after - before + TOO_SOON * needed.reduce((sum, yes, c) => sum + (yes && !taken[c] ? 1 : 0), 0);
        if (!best || price < best.price) best = { found, taken, price };
      }
      if (best) this.commit(cutting, best.found, best.taken);
    }
  }

  private mendAt(cutting: Cutting): boolean {
    const { quilt, random } = this;
    const { width, height } = cutting;
    // What is to be covered, the middle, is not compared.
    const ring = (i: number, j: number) =>
      Math.abs(i + 0.5 - width / 2) > 0.2 * width || Math.abs(j + 0.5 - height / 2) > 0.2 * height;
    const found = findPieces(quilt, cutting, this.uses, this.wanted, random, ring).slice(0, CUTS);
    for (const one of this.neighbours(cutting)) found.push(one);
    let best: { found: Found; taken: Uint8Array; gain: number } | undefined;
    for (const one of found) {
      const { taken, before, after } = this.over(cutting, one);
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
      .sort((a, b) => b.cells - a.cells)
      .slice(0, 2);
  }
}
