import type { Frame } from '../colour/frame.ts';
import { type Ink, printedInks, type ShadeCard } from './card.ts';
import { MIXED_INKS, type Mixture } from './mixture.ts';
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
 * ground add up to the whole of it, give or take a rounded 1/255 each. A pixel depends on its own colour alone, so
 * the plates close wherever the tile does.
 *
 * @param onRows Hears of how many rows are done.
 * @throws Fault (usage) for a card that cannot be unmixed by.
 */
export function separate(
  { pixels, width, height }: Frame,
  card: ShadeCard,
  onRows: (done: number) => void = () => {},
): Plates {
  const unmixer = createUnmixer(card);
  const inks = printedInks(card);
  const planes = inks.map(() => new Uint8Array(width * height));
  const planeOf = card.inks.map((ink) => planes[inks.indexOf(ink)]);
  const rows = Math.max(1, Math.floor(PIXELS_AT_ONCE / width));
  const mixture: Mixture = {
    inks: new Uint8Array(MIXED_INKS * rows * width),
    amounts: new Uint16Array(MIXED_INKS * rows * width),
  };
  for (let top = 0; top < height; top += rows) {
    const count = width * Math.min(rows, height - top);
    const start = top * width;
    unmixer.unmix(pixels.subarray(4 * start, 4 * (start + count)), mixture);
    spread(mixture, count, planeOf, start);
    onRows(Math.min(height, top + rows));
  }
  return { width, height, inks, planes };
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
