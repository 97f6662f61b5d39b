import type { Quality } from '../effect/effect.ts';
import type { Grid } from '../repeat/grid.ts';
import type { Follow } from './follow.ts';
import { spaceOf } from './job.ts';
import { sizeOf } from './space.ts';
import type { RenderStep } from './step.ts';

/** Processor time of an effect, in ns. */
interface EffectPace {
  /** Of painting and laying, per pixel. */
  readonly paint: number;
  /** Of preparing, per mm2 of the box: finished, and as a sketch. */
  readonly prepare: readonly [finished: number, sketch: number];
}

/**
 * The built-in effects with their defaults, as `node tests/bench/pace.mjs` measures them on one thread
 * of a cloud machine (2 cores, busy with other work besides): right within a factor of two or so.
 */
const PACES: Readonly<Record<string, EffectPace>> = {
  'alcohol-lift': { paint: 276, prepare: [23464, 11121] },
  'cracked-wax': { paint: 228, prepare: [5235, 4084] },
  'dry-brush': { paint: 153, prepare: [662, 532] },
  'flat-wash': { paint: 480, prepare: [7800, 3300] },
  labyrinth: { paint: 171, prepare: [27939, 4074] },
  'linen-weave': { paint: 214, prepare: [3121, 3277] },
  'paper-tooth': { paint: 227, prepare: [7269, 1213] },
  'raw-silk': { paint: 224, prepare: [1143, 911] },
  'salt-bloom': { paint: 518, prepare: [32247, 6329] },
  sponged: { paint: 443, prepare: [240, 846] },
  terrazzo: { paint: 251, prepare: [4797, 5765] },
  'watered-silk': { paint: 138, prepare: [496, 472] },
  'wet-into-wet': { paint: 411, prepare: [50871, 5195] },
  'wood-grain': { paint: 289, prepare: [106, 222] },
  'worn-print': { paint: 250, prepare: [6800, 2600] },
  'woven-check': { paint: 860, prepare: [3000, 3000] },
};
/** An effect that was never measured is taken to be in the middle of these. */
const UNKNOWN: EffectPace = { paint: 250, prepare: [5000, 1500] };
/** ns per pixel of checking and writing as PNG. */
const FINISH = 60;

/** Processor seconds that a render is thought to take. */
export interface RenderGuess {
  /** On one thread. */
  readonly prepare: number;
  /** Shared by all threads. */
  readonly paint: number;
  /** Checking and writing, on one thread. */
  readonly finish: number;
  /** Of the result. */
  readonly pixels: number;
}

/** A first guess, before anything of the render was measured. */
export function guessRender(job: {
  readonly grid: Grid;
  readonly steps: readonly Pick<RenderStep, 'effect' | 'declares'>[];
  readonly follow: Follow;
  readonly quality?: Quality;
}): RenderGuess {
  const { grid, steps, quality } = job;
  const { width, height } = sizeOf(grid, spaceOf(job));
  const pixels = width * height;
  const squareMm = grid.box.width * grid.box.height;
  const paces = steps.map(({ effect }) => PACES[effect] ?? UNKNOWN);
  const sum = (of: (pace: EffectPace) => number) => paces.reduce((total, pace) => total + of(pace), 0);
  return {
    prepare: (squareMm * sum(({ prepare }) => prepare[quality === 'sketch' ? 1 : 0])) / 1e9,
    paint: (pixels * sum(({ paint }) => paint)) / 1e9,
    finish: (pixels * FINISH) / 1e9,
    pixels,
  };
}
