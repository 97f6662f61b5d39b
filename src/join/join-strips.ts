import type { Samples } from '../colour/frame.ts';
import { fullSample, ownBlank } from '../colour/samples.ts';
import type { Strip } from './canvas.ts';
import { cutCosts } from './cut-costs.ts';
import { cutSteps, outlineOf } from './cut-steps.ts';
import { evenStrip } from './even-strip.ts';
import { type Cut, type CutKind, shortestCut, sidesOf } from './shortest-cut.ts';
import { coloursOf } from './strip-colours.ts';
import { stripDifference } from './strip-difference.ts';

/** Two strips that lay over one another, made one. */
export interface JoinedStrip extends Strip {
  readonly cut: Cut;
}

/**
 * Cuts two strips that lie over one another where that shows least, takes the one before the cut and the
 * other beyond it, and evens tone and light along the cut. At both long sides it is what the strip there was.
 *
 * @param isFree True where the far long side is an outer edge, with nothing beyond it yet.
 */
export function joinStrips(a: Strip, b: Strip, kind: CutKind, beyond?: Strip): JoinedStrip {
  const { across, along } = a;
  const [coloursA, coloursB] = [coloursOf(a), coloursOf(b)];
  const difference = stripDifference(coloursA, coloursB);
  const cut = shortestCut(cutCosts(coloursA, coloursB, difference.local, kind === 'turned'), kind);
  const sides = sidesOf(cut, across, along);
  const ends = kind === 'open' ? 'open' : 'cyclic';
  const stepAt = cutSteps(difference, ends === 'cyclic', Math.max(outlineOf(coloursA), outlineOf(coloursB)));
  const joined = { across, along, samples: choose(a.samples, b.samples, sides) };
  if (!beyond) {
    const planes = evenStrip({ across, along, ends, sides, stepAt });
    return { ...joined, samples: add(joined.samples, planes), cut };
  }
  // What goes on beyond the overlap takes part in the evening: nothing holds its far side yet.
  const wide = across + beyond.across;
  const planes = evenStrip({
    ...{ across: wide, along, ends, isFree: true },
    sides: widened(sides, across, wide),
    stepAt: (cell) => stepAt((cell % wide) + Math.floor(cell / wide) * across),
  });
  return { across: wide, along, samples: add(beside(joined, beyond), planes), cut };
}

function choose(a: Samples, b: Samples, sides: Uint8Array): Samples {
  const chosen = a.slice();
  for (let cell = 0; cell < sides.length; cell++)
    if (sides[cell] === 1) for (let at = 4 * cell; at < 4 * cell + 4; at++) chosen[at] = b[at];
  return chosen;
}

function add(samples: Samples, planes: readonly Float32Array[]): Samples {
  const full = fullSample(samples);
  for (let channel = 0; channel < 3; channel++) {
    const plane = planes[channel];
    for (let cell = 0, at = channel; cell < plane.length; cell++, at += 4) {
      const more = full * plane[cell];
      if (Math.abs(more) >= 0.5) samples[at] = Math.min(full, Math.max(0, Math.round(samples[at] + more)));
    }
  }
  return samples;
}

/** The sides of a strip that goes on beyond the cut. */
function widened(sides: Uint8Array, across: number, wide: number): Uint8Array {
  const more = new Uint8Array((sides.length / across) * wide).fill(1);
  for (let j = 0; j * across < sides.length; j++)
    more.set(sides.subarray(j * across, (j + 1) * across), j * wide);
  return more;
}

function beside(one: Strip, other: Strip): Samples {
  const wide = one.across + other.across;
  const samples = ownBlank(one.samples, 4 * wide * one.along);
  for (let j = 0; j < one.along; j++) {
    samples.set(one.samples.subarray(4 * j * one.across, 4 * (j + 1) * one.across), 4 * j * wide);
    samples.set(
      other.samples.subarray(4 * j * other.across, 4 * (j + 1) * other.across),
      4 * (j * wide + one.across),
    );
  }
  return samples;
}
