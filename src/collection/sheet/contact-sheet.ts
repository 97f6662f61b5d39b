import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { writePicture } from '../../picture/index.ts';
import { MM_PER_INCH, trimNumber } from '../../repeat/length.ts';
import { barLength } from '../page/bar.ts';
import type { Arrangement } from './arrange-sheets.ts';
import type { Paragraph } from './caption.ts';
import { drawSwatch } from './draw-swatch.ts';
import { CARD, LETTERS, QUIET } from './inks.ts';
import { lettering } from './lettering.ts';
import { heightOf, writeParagraphs } from './paragraphs.ts';
import { MARGIN, SHEET_DPI, type SheetShape, widthOf } from './sheet-shape.ts';

/** What a sheet is about. */
export interface SheetHeading {
  readonly title: string;
  readonly facts: string;
}

/** How long the bar of true length may be, px. */
const BAR_ROOM = 220;
/** Under the words of the heading: the bar and what is around it, px. */
const BAR_HEIGHT = 66;

/** Where the first row of a sheet begins, px. */
export function headingEnd(heading: SheetHeading, shape: SheetShape): number {
  return MARGIN + heightOf(headingWords(heading), widthOf(shape) - 2 * MARGIN) + BAR_HEIGHT;
}

/** One contact sheet, drawn swatch by swatch. */
export class ContactSheet {
  readonly #canvas: Canvas;
  readonly #context: SKRSContext2D;
  readonly #side: number;
  readonly #arrangement: Arrangement;
  #drawn = 0;

  /**
   * @param part  Which of how many, where one sheet was not enough.
   * @param scale Pixels per mm of all its swatches.
   */
  constructor(
    arrangement: Arrangement,
    heading: SheetHeading,
    part: string,
    { side }: SheetShape,
    scale: number,
  ) {
    const { width, height, legend, legendTop } = arrangement;
    this.#side = side;
    this.#arrangement = arrangement;
    this.#canvas = createCanvas(width, height);
    this.#context = this.#canvas.getContext('2d');
    this.#context.fillStyle = CARD;
    this.#context.fillRect(0, 0, width, height);
    const room = width - 2 * MARGIN;
    const below = writeParagraphs(this.#context, headingWords(heading), MARGIN, MARGIN, room);
    drawBar(this.#context, scale, below + 14, part);
    writeParagraphs(this.#context, legend, MARGIN, legendTop, room);
  }

  /** What is to be drawn next; none where the sheet is whole. */
  get next(): Arrangement['placed'][number] | undefined {
    return this.#arrangement.placed[this.#drawn];
  }

  /** Draws what is next. @param shown RGBA of its window, or why there is nothing to show. */
  draw(shown: Uint8ClampedArray | string): void {
    drawSwatch(this.#context, this.next!, shown, this.#side);
    this.#drawn++;
  }

  /** Writes the sheet as a PNG. @throws Fault (output). */
  async write(path: string): Promise<void> {
    const { width, height } = this.#canvas;
    const { data } = this.#context.getImageData(0, 0, width, height);
    const pixels = new Uint8Array(data.buffer, data.byteOffset, data.length);
    const density = SHEET_DPI / MM_PER_INCH;
    await writePicture(
      path,
      { pixels, width, height, pixelsPerMm: { x: density, y: density } },
      { overwrite: true },
    );
  }
}

function headingWords({ title, facts }: SheetHeading): Paragraph[] {
  return [
    { text: title, height: 42, weight: 500, ink: LETTERS, most: 3 },
    { text: facts, height: 22, weight: 400, ink: QUIET },
  ];
}

/** A bar of true length, halved, with its length in mm behind it, and which sheet this is. */
export function drawBar(context: SKRSContext2D, scale: number, y: number, part: string): void {
  const mm = barLength(scale, BAR_ROOM);
  const length = mm * scale;
  context.fillStyle = LETTERS;
  context.fillRect(MARGIN, y, length / 2, 6);
  context.strokeStyle = LETTERS;
  context.lineWidth = 1;
  context.strokeRect(MARGIN + 0.5, y + 0.5, length - 1, 5);
  context.font = lettering(400, 20);
  const words = [`${trimNumber(mm, 3)} mm, all swatches at this scale`, part].filter(Boolean).join('; ');
  context.fillText(words, MARGIN + length + 14, y + 10);
}
