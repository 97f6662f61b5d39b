import type { Bench, Sample } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import { cutOut } from './cut-out.ts';
import { Failed } from './failed.ts';
import { showDifference } from './picture.ts';
import { trySound } from './try-sound.ts';

/** Across the corner where four repeats meet, small: settings that are many must each be cheap. */
const BAND = { x: -11, y: -9, width: 28, height: 18 };
/** A part that begins and ends elsewhere. */
const PART = { x: 5, y: 3, width: 13, height: 11 };
/** As everywhere in the kit: half a step of a 16-bit picture. */
const LAST_BITS = 1 / 65_535 / 2;

/**
 * The three promises that most often break at one value, or at two together: sound numbers, the repeat, and
 * the same from any band.
 *
 * @throws Failed of the first that is not kept.
 */
export function tryAll(bench: Bench, sample: Sample): void {
  trySound(bench, sample);
  const home = bench.paint(sample, BAND);
  const { ax, ay, bx, by } = sample.grid.lattice;
  for (const [dx, dy] of [
    [ax, ay],
    [bx, by],
  ]) {
    const there = bench.paint(sample, { ...BAND, x: BAND.x + dx, y: BAND.y + dy });
    const difference = differenceOf(home, there, LAST_BITS);
    if (!difference) continue;
    throw new Failed(sample.trial, {
      expected: `at these values too the same floats one repeat further on, moved by (${dx}, ${dy}) px`,
      received: describeDifference(difference),
      remedy: 'Look at what these values change in the period: it must come from the box at every value.',
      picture: showDifference(home, there),
    });
  }
  const part = bench.paint(sample, { ...PART, x: BAND.x + PART.x, y: BAND.y + PART.y });
  const whole = cutOut(home, PART);
  const difference = differenceOf(whole, part);
  if (!difference) return;
  throw new Failed(sample.trial, {
    expected: `at these values too the same floats from a band of ${BAND.width} x ${BAND.height} px and from a part of it`,
    received: describeDifference(difference),
    remedy:
      'Look at what these values change in paint: every pixel comes from its own place, and never from where the band begins.',
    picture: showDifference(whole, part),
  });
}
