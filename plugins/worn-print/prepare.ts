import { fractalNoise, type Setting } from 'tenter';
import { flakesOf } from './flakes.ts';
import type { WornModel } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { scratchesOf } from './scratches.ts';
import { threadsOf } from './threads.ts';
import { leftOf, wearOf } from './wear.ts';

/** mm per cell of the wear, finished and in a sketch. */
const CELL = 0.5;
const SKETCH_CELL = 1;

/** What each surface is made of, the size of what stands up of it, mm, and how softly paint ends, in deviations. */
const SURFACES = {
  cloth: { parts: { threads: 0.74, tooth: 0.58, streaks: 0.34 }, tooth: 1.3, soft: 0.5 },
  paper: { parts: { threads: 0, tooth: 0.86, streaks: 0.51 }, tooth: 1.1, soft: 0.3 },
  skin: { parts: { threads: 0.34, tooth: 0.86, streaks: 0.38 }, tooth: 1.7, soft: 0.24 },
} as const;

export function prepareWorn(setting: Setting<typeof PARAMETERS>): WornModel {
  const { parameters: values, box, random, quality, report, progress } = setting;
  const mmPerCell = quality === 'sketch' ? SKETCH_CELL : CELL;
  const { parts, tooth, soft } = SURFACES[values.surface];
  const threads = parts.threads > 0 ? threadsOf(box, values, random('threads')) : undefined;
  if (threads) {
    report({ name: 'threads', value: 10 / threads.grid.mmPerCellX, unit: 'per cm', asked: values.threads });
  }
  const scratches = scratchesOf(box, values.scratches, values.direction, random('scratches'));
  return {
    lattice: box.lattice,
    wear: wearOf({ box, values, mmPerCell, random, progress }),
    left: leftOf({ box, values, random }),
    threads,
    tooth: fractalNoise(
      box.lattice,
      { along: tooth, across: tooth },
      { octaves: 3, gain: 0.85 },
      random('tooth'),
    ),
    streaks: fractalNoise(
      box.lattice,
      { along: 9, across: 0.6, direction: values.direction },
      { octaves: 1, gain: 1 },
      random('streaks'),
    ),
    parts,
    soft,
    flakes: values.cracks > 0 ? flakesOf(box, values, random('flakes')) : undefined,
    scratches,
    wash: 0.13 * (values.washed / 100),
    bare: values.bare / 100,
  };
}
