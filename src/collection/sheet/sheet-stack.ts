import { join } from 'node:path';
import { placeInside } from '../disk/output.ts';
import { type Arrangement, arrangeSheets } from './arrange-sheets.ts';
import { alikeWords, captionRules } from './caption.ts';
import { ContactSheet, headingEnd, type SheetHeading } from './contact-sheet.ts';
import { differingAxes } from './differing.ts';
import { layWindow, TAPS } from './lay-window.ts';
import { Legend } from './legend.ts';
import { commonScale } from './scale.ts';
import type { SheetShape } from './sheet-shape.ts';
import { type SmallPicture, shrinkSmall } from './small-picture.ts';
import type { Swatch } from './swatch.ts';

/** What a stack of sheets is made of. */
export interface StackWish {
  readonly folder: string;
  /** Of its files, without number and ending. */
  readonly name: string;
  readonly heading: SheetHeading;
  readonly shape: SheetShape;
  /** All that will be added, in that order. */
  readonly swatches: readonly Swatch[];
}

/** A small picture, or why there is none. */
export type SmallOrReason = SmallPicture | string;

/** Contact sheets of one kind: as many as its swatches need, one of them in memory. */
export class SheetStack {
  readonly #wish: StackWish;
  readonly #heading: SheetHeading;
  readonly #arrangements: readonly Arrangement[];
  readonly #scale: number;
  readonly #written: string[] = [];
  #sheet?: ContactSheet;

  constructor(wish: StackWish) {
    const { swatches, shape } = wish;
    const axes = differingAxes(swatches);
    const legend = new Legend(swatches, axes);
    const rules = captionRules(swatches, axes, (swatch) => legend.ownOf(swatch));
    this.#wish = wish;
    this.#scale = commonScale(swatches, shape.side);
    this.#heading = headingWith(wish.heading, alikeWords(swatches, axes));
    const top = headingEnd(this.#heading, shape);
    this.#arrangements = arrangeSheets(swatches, shape, rules, legend, top);
  }

  /** Pixels per mm that it wants of a picture. */
  get density(): number {
    return this.#scale * TAPS;
  }

  /** The sheets, down to the pixel. */
  get arrangements(): readonly Arrangement[] {
    return this.#arrangements;
  }

  /** @param shown Its picture. @param original That of its artwork, where it has one. @throws Fault (output). */
  async add(shown: SmallOrReason, original?: SmallOrReason): Promise<void> {
    this.#sheet ??= this.#begin();
    if (this.#sheet.next!.isOriginal) await this.#draw(this.#sheet, original!);
    await this.#draw(this.#sheet, shown);
    if (!this.#sheet.next) await this.#finish(this.#sheet);
  }

  /** The files that there will be. */
  get paths(): string[] {
    return this.#arrangements.map((_, index) => join(this.#wish.folder, this.#nameOf(index)));
  }

  /** The files so far. */
  get written(): readonly string[] {
    return this.#written;
  }

  async #draw(sheet: ContactSheet, shown: SmallOrReason): Promise<void> {
    const small = typeof shown === 'string' ? shown : await shrinkSmall(shown, this.density);
    sheet.draw(typeof small === 'string' ? small : layWindow(small, this.#wish.shape.side, this.#scale));
  }

  get #isOne(): boolean {
    return this.#arrangements.length === 1;
  }

  #nameOf(index: number): string {
    return `${this.#wish.name}${this.#isOne ? '' : `.${String(index + 1).padStart(3, '0')}`}.png`;
  }

  #begin(): ContactSheet {
    const number = this.#written.length;
    const part = this.#isOne ? '' : `sheet ${number + 1} of ${this.#arrangements.length}`;
    return new ContactSheet(this.#arrangements[number], this.#heading, part, this.#wish.shape, this.#scale);
  }

  async #finish(sheet: ContactSheet): Promise<void> {
    const path = await placeInside(this.#wish.folder, this.#nameOf(this.#written.length));
    await sheet.write(path);
    this.#written.push(path);
    this.#sheet = undefined;
  }
}

function headingWith({ title, facts }: SheetHeading, alike: string): SheetHeading {
  return { title, facts: [facts, alike && `all: ${alike}`].filter(Boolean).join('; ') };
}
