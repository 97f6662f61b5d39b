import type { SKRSContext2D } from '@napi-rs/canvas';
import { type Caption, captionOf } from './caption.ts';
import { LETTERS, MADDER, QUIET, RULE } from './inks.ts';
import { lettering, type Weight } from './lettering.ts';
import type { Swatch } from './swatch.ts';
import { wrapText } from './wrap-text.ts';

/** A swatch on a sheet. */
export interface SwatchDrawing {
  readonly swatch: Swatch;
  /** The axes that its caption names. */
  readonly axes: readonly string[];
  /** RGBA of the window, or the reason why it is empty. */
  readonly shown: Uint8ClampedArray | string;
  readonly x: number;
  readonly y: number;
  readonly side: number;
}

const SETTINGS_LINES = 5;
const REASON_LINES = 6;

export function drawSwatch(context: SKRSContext2D, drawing: SwatchDrawing): void {
  const { swatch, axes, shown, x, y, side } = drawing;
  if (typeof shown === 'string') drawEmpty(context, shown, drawing);
  else {
    const image = context.createImageData(side, side);
    image.data.set(shown);
    context.putImageData(image, x, y);
  }
  drawCaption(context, captionOf(swatch, axes), drawing);
}

/** A place kept free, and why. */
function drawEmpty(context: SKRSContext2D, reason: string, { x, y, side }: SwatchDrawing): void {
  context.strokeStyle = RULE;
  context.lineWidth = 2;
  context.setLineDash([7, 6]);
  context.strokeRect(x + 1, y + 1, side - 2, side - 2);
  context.setLineDash([]);
  context.fillStyle = reason.startsWith('failed') ? MADDER : QUIET;
  writeLines(context, reason, { x: x + 20, y: y + 40, width: side - 40, height: 17, most: REASON_LINES });
}

function drawCaption(context: SKRSContext2D, caption: Caption, { x, y, side }: SwatchDrawing): void {
  const line = { x, width: side, most: 1 };
  let below = y + side + 26;
  context.fillStyle = LETTERS;
  below += writeLines(context, caption.title, { ...line, y: below, height: 19, weight: 500 });
  below += writeLines(context, caption.differs, { ...line, y: below, height: 16 });
  context.fillStyle = QUIET;
  below += writeLines(context, caption.settings, { ...line, y: below, height: 13, most: SETTINGS_LINES });
  if (caption.record.includes(',')) context.fillStyle = MADDER;
  writeLines(context, caption.record, { ...line, y: below, height: 13 });
}

interface Lines {
  readonly x: number;
  /** Of the first line's foot. */
  readonly y: number;
  readonly width: number;
  /** Of the letters. */
  readonly height: number;
  readonly most: number;
  readonly weight?: Weight;
}

/** @returns How far down the next line stands. */
export function writeLines(context: SKRSContext2D, text: string, place: Lines): number {
  const { x, y, width, height, most, weight = 400 } = place;
  context.font = lettering(weight, height);
  const lines = wrapText(text, (line) => context.measureText(line).width <= width, most);
  const leading = Math.round(height * 1.3);
  for (const [index, line] of lines.entries()) context.fillText(line, x, y + index * leading);
  return lines.length * leading;
}
