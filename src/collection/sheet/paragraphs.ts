import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { Paragraph } from './caption.ts';
import { lettering } from './lettering.ts';
import { wrapText } from './wrap-text.ts';

/** For measuring only. */
const measure = createCanvas(1, 1).getContext('2d');

/** The lines of a paragraph in a column of this width, px. */
export function linesOf({ text, height, weight, most }: Paragraph, width: number): string[] {
  measure.font = lettering(weight, height);
  return wrapText(text, (line) => measure.measureText(line).width <= width, most);
}

/** How much of a column's height some paragraphs take, px. */
export function heightOf(paragraphs: readonly Paragraph[], width: number): number {
  return paragraphs.reduce((sum, one) => sum + linesOf(one, width).length * leadingOf(one), 0);
}

/**
 * Writes paragraphs one under the other.
 *
 * @param y The upper edge of the first.
 * @returns The lower edge of the last.
 */
export function writeParagraphs(
  context: SKRSContext2D,
  paragraphs: readonly Paragraph[],
  x: number,
  y: number,
  width: number,
): number {
  let top = y;
  for (const paragraph of paragraphs) {
    context.font = lettering(paragraph.weight, paragraph.height);
    context.fillStyle = paragraph.ink;
    for (const line of linesOf(paragraph, width)) {
      context.fillText(line, x, top + paragraph.height);
      top += leadingOf(paragraph);
    }
  }
  return top;
}

function leadingOf({ height }: Paragraph): number {
  return Math.round(height * 1.3);
}
