import { fitGrid, type Grid, parseLayout } from '../../../repeat/index.ts';
import { type OpenResist, openResist, type PixelRectangle } from '../../resist/index.ts';
import type { Resist, Stroke } from '../../words/work.ts';
import { around, copiesOf, Piece } from '../veil/piece.ts';

/** Of a piece that repeats straight: what a screen draws anew within a frame. */
const MOST_PIXELS = 6e6;
/** Bytes for going back. */
const MOST_KEPT = 48e6;

interface Kept {
  /** How many strokes are on it. */
  readonly count: number;
  readonly samples: Uint8Array;
}

/** A resist as the screen shows it: follows strokes under way, and those that were undone, redone or cleared. */
export class ResistPicture {
  readonly grid: Grid;
  readonly piece: Piece;
  #open: OpenResist;
  #laid: Stroke[] = [];
  #kept: Kept[] = [];
  #touched: PixelRectangle[] = [];

  /** @param density px per mm that are wanted; fewer where that would be too many. */
  constructor(repeat: { width: number; height: number; layout: string }, density: number) {
    const layout = parseLayout(repeat.layout);
    const { across, down } = copiesOf(layout);
    const most = Math.sqrt(MOST_PIXELS / (repeat.width * repeat.height * across * down));
    this.grid = fitGrid({ ...repeat, layout }, Math.min(density, most));
    const { tileWidth: width, tileHeight: height, mmPerPixelX, mmPerPixelY } = this.grid;
    this.piece = new Piece({ layout, width, height, mmPerPixelX, mmPerPixelY });
    this.#open = openResist(this.grid);
  }

  get samples(): Uint8Array {
    return this.#open.samples;
  }

  /** Begins a stroke. */
  begin(stroke: Stroke): void {
    this.#keep();
    this.#laid.push(stroke);
    this.#touched.push(...this.#open.add(stroke));
  }

  grow(points: readonly number[]): void {
    this.#touched.push(...this.#open.grow(points));
  }

  /** The stroke under way is done, and is this one. */
  end(stroke: Stroke): void {
    this.#laid[this.#laid.length - 1] = stroke;
  }

  /** The stroke under way is not to be. */
  giveUp(): void {
    this.#goBack(this.#laid.length - 1);
  }

  /** Shows another state of the same resist; only the strokes that are not on it yet are painted. */
  show({ strokes }: Resist): void {
    let same = 0;
    while (same < Math.min(strokes.length, this.#laid.length) && isSame(strokes[same], this.#laid[same]))
      same++;
    if (same < this.#laid.length) this.#goBack(same);
    for (const stroke of strokes.slice(this.#laid.length)) this.begin(stroke);
  }

  /** Brings what was touched since to the piece. */
  settle(): void {
    const part = around(this.#touched);
    this.#touched = [];
    if (part) this.piece.put(this.samples, part);
  }

  #keep(): void {
    this.#kept.push({ count: this.#laid.length, samples: this.samples.slice() });
    if (this.#kept.length * this.samples.length > MOST_KEPT && this.#kept.length > 2) this.#kept.shift();
  }

  #goBack(count: number): void {
    this.#kept = this.#kept.filter((kept) => kept.count <= count);
    const kept = this.#kept.pop();
    const missing = this.#laid.slice(kept?.count ?? 0, count);
    this.#open = openResist(this.grid, kept?.samples);
    this.#laid = this.#laid.slice(0, kept?.count ?? 0);
    for (const stroke of missing) this.begin(stroke);
    const { tileWidth: width, tileHeight: height } = this.grid;
    this.#touched = [{ left: 0, top: 0, width, height }];
  }
}

function isSame(a: Stroke, b: Stroke): boolean {
  if (a === b) return true;
  if (a.width !== b.width || a.softness !== b.softness || !a.erases !== !b.erases) return false;
  return a.points.length === b.points.length && a.points.every((value, at) => value === b.points[at]);
}
