import { placeInside } from '../output.ts';
import { ContactSheet, type SheetHeading } from './contact-sheet.ts';
import { differingAxes } from './differing.ts';
import { layWindow, TAPS } from './lay-window.ts';
import { commonScale } from './scale.ts';
import type { SheetShape } from './sheet-shape.ts';
import { type SmallPicture, shrinkSmall } from './small-picture.ts';
import type { Swatch } from './swatch.ts';

/** What a stack of sheets is made of. */
export interface StackWish {
  readonly folder: string;
  /** Of its files, without number and ending. */
  readonly name: string;
  readonly heading: Omit<SheetHeading, 'part'>;
  readonly shape: SheetShape;
  /** All that will be added, in that order. */
  readonly swatches: readonly Swatch[];
}

/** Contact sheets of one kind: as many as its swatches need, one of them in memory. */
export class SheetStack {
  readonly #wish: StackWish;
  readonly #axes: readonly string[];
  readonly #scale: number;
  readonly #written: string[] = [];
  #sheet?: ContactSheet;
  #added = 0;

  constructor(wish: StackWish) {
    this.#wish = wish;
    this.#axes = differingAxes(wish.swatches);
    this.#scale = commonScale(wish.swatches, wish.shape.side);
  }

  /** Pixels per mm that it wants of a picture. */
  get density(): number {
    return this.#scale * TAPS;
  }

  /** @param shown Its picture, or why there is none. @throws Fault (output). */
  async add(swatch: Swatch, shown: SmallPicture | string): Promise<void> {
    const { shape, swatches } = this.#wish;
    this.#sheet ??= this.#begin();
    const small = typeof shown === 'string' ? shown : await shrinkSmall(shown, this.density);
    this.#sheet.add(swatch, typeof small === 'string' ? small : layWindow(small, shape.side, this.#scale));
    this.#added++;
    if (this.#sheet.drawn === this.#perSheet || this.#added === swatches.length)
      await this.#finish(this.#sheet);
  }

  /** The files so far. */
  get written(): readonly string[] {
    return this.#written;
  }

  get #perSheet(): number {
    return this.#wish.shape.columns * this.#wish.shape.rows;
  }

  get #sheets(): number {
    return Math.ceil(this.#wish.swatches.length / this.#perSheet);
  }

  #begin(): ContactSheet {
    const { shape, heading, swatches } = this.#wish;
    const part = this.#sheets > 1 ? `sheet ${this.#written.length + 1} of ${this.#sheets}` : '';
    const count = Math.min(this.#perSheet, swatches.length - this.#added);
    return new ContactSheet(shape, { ...heading, part }, this.#axes, this.#scale, count);
  }

  async #finish(sheet: ContactSheet): Promise<void> {
    const { folder, name } = this.#wish;
    const number = this.#sheets > 1 ? `.${String(this.#written.length + 1).padStart(3, '0')}` : '';
    const path = await placeInside(folder, `${name}${number}.png`);
    await sheet.write(path);
    this.#written.push(path);
    this.#sheet = undefined;
  }
}
