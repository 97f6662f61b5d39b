import type { Band } from '../effect.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import { cutOut } from './cut-out.ts';
import { Failed } from './failed.ts';
import { showDifference } from './picture.ts';

type Rectangle = Pick<Band, 'x' | 'y' | 'width' | 'height'>;

/** px: wider and higher than any that a buffer of fixed size would do for; narrow, as what counts are the ends. */
const STRIPS: readonly Rectangle[] = [
  { x: -40, y: 7, width: 9000, height: 2 },
  { x: 11, y: -30, width: 2, height: 9000 },
];
/** px of a strip's ends and middle. */
const PIECE = 16;
const PATCH = { x: -6, y: -4, width: 24, height: 20 };
/** px: sizes that no loop over four or eight pixels comes out even with. */
const TINY = [2, 3, 5];

/** px/mm, at which a band of this many pixels covers what a tile of production holds. */
const FAR = 0.5;
const AREA = { x: -30, y: -20, width: 330, height: 330 };
const CORNERS = [
  { x: 0, y: 0 },
  { x: 300, y: 150 },
  { x: 150, y: 300 },
  { x: 306, y: 306 },
].map((place) => ({ ...place, width: 24, height: 24 }));

/**
 * Compares a band that covers 660 x 660 mm with small pieces of it: what is gathered for a band may be more than there
 * is room for.
 *
 * @throws Failed where they differ.
 */
export function tryFullBand(bench: Bench, sample: Sample): void {
  tryParts(bench, atDensity(sample, FAR), AREA, CORNERS);
}

/**
 * Compares very long bands with short pieces of them, and a patch with tiny squares of it.
 *
 * @throws Failed where they differ.
 */
export function tryOddBands(bench: Bench, sample: Sample): void {
  for (const strip of STRIPS) tryParts(bench, sample, strip, piecesOf(strip));
  const tiny = TINY.flatMap((size) =>
    [0, 1, 2].map((k) => ({ x: 1 + 7 * k, y: 2 + 5 * k, width: size, height: size })),
  );
  tryParts(bench, sample, PATCH, tiny);
}

function piecesOf({ width, height }: Rectangle): Rectangle[] {
  return [0, 0.47, 0.76, 1].map((share) =>
    width > height
      ? { x: Math.floor((width - PIECE) * share), y: 0, width: PIECE, height }
      : { x: 0, y: Math.floor((height - PIECE) * share), width, height: PIECE },
  );
}

function tryParts(bench: Bench, sample: Sample, band: Rectangle, parts: readonly Rectangle[]): void {
  const whole = bench.paint(sample, band);
  for (const part of parts) {
    const alone = bench.paint(sample, { ...part, x: band.x + part.x, y: band.y + part.y });
    const cut = cutOut(whole, part);
    const difference = differenceOf(cut, alone);
    if (!difference) continue;
    throw new Failed(sample.trial, {
      expected: `the same floats from a band of ${band.width} x ${band.height} px and from one of ${part.width} x ${part.height} px within it`,
      received: describeDifference(difference),
      remedy:
        'Let every loop and buffer take the size of the band as it comes, from one pixel to thousands: no fixed length, no steps of four.',
      picture: showDifference(cut, alone),
    });
  }
}
