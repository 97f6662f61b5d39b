import { spokenValue } from '../../value.ts';
import type { Bench, Sample } from '../bench.ts';
import { openBudget } from '../budget.ts';
import { type Check, GROUND } from '../check.ts';
import { tryComposition } from '../composition.ts';
import { Failed, Refused } from '../failed.ts';
import { compareWithSketch, PIXELS_PER_MM } from '../sketch-likeness.ts';
import { HOME, type Trial } from '../trial.ts';
import { isWord, smallest, variants, words } from '../vary.ts';

const TRIAL: Trial = { ...HOME, width: 60, height: 48, pixelsPerMm: PIXELS_PER_MM };
/** ms for a small texture: where it takes longer, a quick proof does not look at a large one, or at other values. */
const QUICK_MS = { large: 60, others: 250 };
/** What is spent on values that are not the defaults, s. */
const SECONDS = { quick: 0.25, whole: 4 };

export const sketch: Check = {
  name: 'sketch',
  promise: 'A sketch has the composition and the tone of the finished texture, whatever the values.',
  needs: GROUND,
  async run(bench) {
    const started = bench.now?.();
    const finished = await bench.shared(TRIAL);
    const looksAtQuality = isJudged(finished);
    const { likeness, detail } = looksAtQuality ? await compareWithSketch(bench, finished) : {};
    const ms = started === undefined || !bench.quick ? 0 : bench.now!() - started;
    const coarse = ms > QUICK_MS.large || !looksAtQuality ? undefined : await tryComposition(bench);
    const others = await tryOthers(bench, ms > QUICK_MS.others ? [] : otherTrials(bench));
    if (!looksAtQuality && others.tried === 0)
      return { status: 'not applicable', note: 'it does not look at the quality' };
    const isFlat = likeness === undefined && detail === undefined && coarse === undefined;
    if (isFlat && others.shown === 0)
      return { status: 'not applicable', note: 'it is flat at its defaults at this scale' };
    const figures = {
      ...(likeness !== undefined && { likeness: Number(likeness.toFixed(2)) }),
      ...(detail !== undefined && { 'likeness of detail': Number(detail.toFixed(2)) }),
      ...(coarse !== undefined && { 'likeness of large patches': Number(coarse.toFixed(2)) }),
      'other values': others.tried,
      ...(others.left > 0 && { left: others.left }),
    };
    return { status: 'passed', figures };
  },
};

function isJudged({ used }: Sample): boolean {
  return used.has('quality');
}

/** Compares where values are not the defaults: a sketch may forget what only one of them does. */
async function tryOthers(
  bench: Bench,
  trials: readonly Trial[],
): Promise<{ tried: number; shown: number; left: number }> {
  const budget = openBudget(bench, SECONDS);
  let [tried, shown, left] = [0, 0, 0];
  for (const trial of trials) {
    if (budget.isOver()) left++;
    else {
      const outcome = await outcomeOf(bench, trial);
      if (!outcome) continue;
      tried++;
      if (outcome.likeness !== undefined || outcome.detail !== undefined) shown++;
    }
  }
  return { tried, shown, left };
}

/** Nothing where the effect refuses the values, or does not look at the quality with them. */
async function outcomeOf(bench: Bench, trial: Trial) {
  try {
    const finished = await bench.prepare(trial);
    return isJudged(finished) ? await compareComposition(bench, finished) : undefined;
  } catch (error) {
    if (error instanceof Refused) return undefined;
    if (!(error instanceof Failed)) throw error;
    throw forgotten(
      await smallest(bench, trial, error, (other) => compareComposition(bench, other).then(() => {})),
    );
  }
}

function compareComposition(bench: Bench, finished: Sample) {
  return compareWithSketch(bench, finished, 'composition');
}

/** At the defaults all is well: so the values are the cause. */
function forgotten({ failure: { setting, sentence: _, ...parts } }: Failed): Failed {
  const values = Object.entries(setting.parameters).map(([name, value]) => `${name}=${spokenValue(value)}`);
  return new Failed(setting, {
    ...parts,
    remedy: `It comes of ${values.join(', ')}: at the defaults the sketch is right. Let prepare look at it for a sketch as it does for a finished texture.`,
  });
}

/** Each switch and option by itself; then presets and, unless it has to be quick, what else has extremes. */
function otherTrials({ effect, presets = [], quick }: Bench): Trial[] {
  const made = presets.map(({ parameters }): Trial => ({ ...TRIAL, parameters }));
  const first = [...words(effect, TRIAL), ...made];
  if (quick) return first;
  const others = variants(effect, TRIAL).slice(1);
  return [...first, ...others.filter((trial) => !isWord(effect, trial))];
}
