import type { Frame, Samples } from '../colour/frame.ts';
import { type Ink, printedInks, type ShadeCard } from './card.ts';
import { blankMixture, MIXED_INKS, type Mixture } from './mixture.ts';
import { isPrintedIn, keyAt, type PrintedColours, printedColours } from './printed-colours.ts';
import { createUnmixer } from './unmix.ts';

/** How much of each ink is printed where: what the screens of a design are made from. */
export interface Plates {
  readonly width: number;
  readonly height: number;
  /** The inks of the card that a screen prints, in the order of printing. */
  readonly inks: readonly Ink[];
  /** Of each ink its area in each pixel, row by row: 0 for none, 255 for all of it. */
  readonly planes: readonly Uint8Array[];
}

/** Bytes of what is unmixed at a time, about: small against the picture. */
const PIXELS_AT_ONCE = 1 << 18;

/**
 * Separates a tile into the inks of its card, one beside the other (knocked out): those of a pixel and its bare
 * ground add up to the whole of it, give or take a rounded 1/255 each. Where inks do not cover, a picture of counted
 * inks alone is told apart exactly: a colour that two inks make one over the other is all of both. A pixel depends
 * on its own colour alone, so the plates close wherever the tile does.
 *
 * @param onRows Hears of how many rows are done.
 * @throws Fault (usage) for a card that cannot be unmixed by.
 */
export function separate(
  { pixels, width, height }: Frame,
  card: ShadeCard,
  onRows: (done: number) => void = () => {},
): Plates {
  const inks = printedInks(card);
  const planes = inks.map(() => new Uint8Array(width * height));
  const planeOf = card.inks.map((ink) => planes[inks.indexOf(ink)]);
  if (inks.some(({ covers }) => !covers)) {
    const known = printedColours(card);
    if (isPrintedIn({ pixels, width, height }, known)) {
      fillWhole(pixels, known, planeOf);
      return { width, height, inks, planes };
    }
  }
  const unmixer = createUnmixer(card);
  const rows = Math.max(1, Math.floor(PIXELS_AT_ONCE / width));
  const mixture = blankMixture(rows * width);
  for (let top = 0; top < height; top += rows) {
    const count = width * Math.min(rows, height - top);
    const start = top * width;
    unmixer.unmix(pixels.subarray(4 * start, 4 * (start + count)), mixture);
    spread(mixture, count, planeOf, start);
    onRows(Math.min(height, top + rows));
  }
  return { width, height, inks, planes };
}

/** All of each ink that a pixel's colour is made of. */
function fillWhole(
  pixels: Samples,
  known: PrintedColours,
  planeOf: readonly (Uint8Array | undefined)[],
): void {
  for (let pixel = 0; 4 * pixel < pixels.length; pixel++) {
    for (const ink of known.get(keyAt(pixels, 4 * pixel)) ?? []) {
      const plane = planeOf[ink];
      if (plane) plane[pixel] = 255;
    }
  }
}

/** Adds the amounts of a run of pixels to the planes of their inks; the ground has none. */
function spread(
  { inks, amounts }: Mixture,
  count: number,
  planeOf: readonly (Uint8Array | undefined)[],
  start: number,
): void {
  for (let at = 0; at < MIXED_INKS * count; at++) {
    if (amounts[at] === 0) continue;
    const plane = planeOf[inks[at]];
    if (plane) plane[start + ((at / MIXED_INKS) | 0)] += (amounts[at] * BYTE_OF_AMOUNT + 0.5) | 0;
  }
}

const BYTE_OF_AMOUNT = 255 / 65_535;
