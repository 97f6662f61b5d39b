import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { writePicture } from '../../picture/index.ts';
import { trimNumber } from '../../repeat/length.ts';
import { barLength } from '../page/bar.ts';
import { drawSwatch, writeLines } from './draw-swatch.ts';
import { CARD, LETTERS, QUIET } from './inks.ts';
import { lettering } from './lettering.ts';
import { HEADING, MARGIN, placeOf, type SheetShape, sizeOf } from './sheet-shape.ts';
import type { Swatch } from './swatch.ts';

/** What a sheet is about. */
export interface SheetHeading {
  readonly title: string;
  readonly facts: string;
  /** Which of how many, where one sheet was not enough. */
  readonly part: string;
}

/** How long the bar of true length may be, px. */
const BAR_ROOM = 220;

/** One contact sheet, drawn swatch by swatch. */
export class ContactSheet {
  readonly #canvas: Canvas;
  readonly #context: SKRSContext2D;
  readonly #shape: SheetShape;
  readonly #axes: readonly string[];
  #drawn = 0;

  /**
   * @param axes  Those that the captions name.
   * @param scale Pixels per mm of all its swatches.
   * @param count Swatches that it will hold.
   */
  constructor(
    shape: SheetShape,
    heading: SheetHeading,
    axes: readonly string[],
    scale: number,
    count: number,
  ) {
    const { width, height } = sizeOf(shape, count);
    this.#shape = shape;
    this.#axes = axes;
    this.#canvas = createCanvas(width, height);
    this.#context = this.#canvas.getContext('2d');
    this.#context.fillStyle = CARD;
    this.#context.fillRect(0, 0, width, height);
    drawHeading(this.#context, heading, width);
    drawBar(this.#context, scale);
  }

  get drawn(): number {
    return this.#drawn;
  }

  /** @param shown RGBA of its window, or why there is nothing to show. */
  add(swatch: Swatch, shown: Uint8ClampedArray | string): void {
    const place = placeOf(this.#shape, this.#drawn++);
    const { side } = this.#shape;
    drawSwatch(this.#context, { swatch, axes: this.#axes, shown, side, ...place });
  }

  /** Writes the sheet as a PNG. @throws Fault (output). */
  async write(path: string): Promise<void> {
    const { width, height } = this.#canvas;
    const { data } = this.#context.getImageData(0, 0, width, height);
    const pixels = new Uint8Array(data.buffer, data.byteOffset, data.length);
    await writePicture(path, { pixels, width, height }, { overwrite: true });
  }
}

function drawHeading(context: SKRSContext2D, { title, facts, part }: SheetHeading, width: number): void {
  const line = { x: MARGIN, width: width - 2 * MARGIN, most: 1 };
  context.fillStyle = LETTERS;
  writeLines(context, title, { ...line, y: MARGIN + 34, height: 42, weight: 500 });
  context.fillStyle = QUIET;
  writeLines(context, [facts, part].filter(Boolean).join('   '), { ...line, y: MARGIN + 70, height: 20 });
}

/** A bar of true length, halved, with its length in mm behind it. */
function drawBar(context: SKRSContext2D, scale: number): void {
  const mm = barLength(scale, BAR_ROOM);
  const [x, y, length] = [MARGIN, MARGIN + HEADING - 50, mm * scale];
  context.fillStyle = LETTERS;
  context.fillRect(x, y, length / 2, 6);
  context.strokeStyle = LETTERS;
  context.lineWidth = 1;
  context.strokeRect(x + 0.5, y + 0.5, length - 1, 5);
  context.font = lettering(400, 18);
  context.fillText(`${trimNumber(mm, 3)} mm, all swatches at this scale`, x + length + 14, y + 9);
}
