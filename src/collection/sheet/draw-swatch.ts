import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Placed } from './arrange-sheets.ts';
import { LEAST_LETTERS } from './caption.ts';
import { MADDER, QUIET, RULE } from './inks.ts';
import { writeParagraphs } from './paragraphs.ts';
import { CAPTION_GAP } from './sheet-shape.ts';

const REASON_LINES = 9;

/**
 * Draws a swatch with its caption.
 *
 * @param shown RGBA of its window, or the reason why it is empty.
 * @param side  Of the window, px.
 */
export function drawSwatch(
  context: SKRSContext2D,
  { caption, x, y }: Placed,
  shown: Uint8ClampedArray | string,
  side: number,
): void {
  if (typeof shown === 'string') drawEmpty(context, shown, x, y, side);
  else {
    const image = context.createImageData(side, side);
    image.data.set(shown);
    context.putImageData(image, x, y);
  }
  writeParagraphs(context, caption, x, y + side + CAPTION_GAP, side);
}

/** A place kept free, and why. */
function drawEmpty(context: SKRSContext2D, reason: string, x: number, y: number, side: number): void {
  context.strokeStyle = RULE;
  context.lineWidth = 2;
  context.setLineDash([7, 6]);
  context.strokeRect(x + 1, y + 1, side - 2, side - 2);
  context.setLineDash([]);
  const ink = reason.startsWith('failed') ? MADDER : QUIET;
  const words = { text: reason, height: LEAST_LETTERS, weight: 400, ink, most: REASON_LINES } as const;
  writeParagraphs(context, [words], x + 20, y + 20, side - 40);
}
