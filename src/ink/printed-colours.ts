import type { Frame, Samples } from '../colour/frame.ts';
import type { ShadeCard } from './card.ts';
import { screenColours } from './screen-colours.ts';

/** Which inks of a card make a colour exactly: places in its `inks`, by the colour's 24 bits. */
export type PrintedColours = ReadonlyMap<number, readonly number[]>;

/** The colours of a card's inks alone and two over one another; where two ways make one colour, the fewer inks. */
export function printedColours(card: ShadeCard): PrintedColours {
  const known = new Map<number, readonly number[]>();
  for (const { colour, inks } of screenColours(card, 'there', []).colours) {
    const key = (colour[0] << 16) | (colour[1] << 8) | colour[2];
    if ((known.get(key)?.length ?? Number.POSITIVE_INFINITY) > inks.length) known.set(key, inks);
  }
  return known;
}

/** Whether every pixel is opaque and exactly one of the colours, as in a picture of counted inks. */
export function isPrintedIn({ pixels }: Frame, known: PrintedColours): boolean {
  if (pixels.BYTES_PER_ELEMENT !== 1) return false;
  for (let at = 0, last = -1; at < pixels.length; at += 4) {
    if (pixels[at + 3] !== 255) return false;
    const key = keyAt(pixels, at);
    if (key === last) continue;
    if (!known.has(key)) return false;
    last = key;
  }
  return true;
}

/** The 24 bits of the colour of the pixel that begins at a sample. */
export function keyAt(pixels: Samples, at: number): number {
  return (pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2];
}
