import { type AnyLayer, neutralLayer, PLANE_NAMES, type PlaneName } from '../../layer.ts';
import { type Bench, type Sample, thrown } from '../bench.ts';
import { type Budget, openBudget } from '../budget.ts';
import type { Check } from '../check.ts';
import { differenceOf } from '../compare.ts';
import { Failed } from '../failed.ts';
import { tryIdlePlanes } from '../idle-plane.ts';
import { leavingTrials, unevenLists } from '../leaving.ts';
import { tryLeftOut } from '../left-out.ts';
import { showLayer, sideBySide } from '../picture.ts';
import { tryStraight } from '../straight.ts';
import { HOME, type Trial } from '../trial.ts';
import { overTrials, pairs, SKETCHED, SMALL, thinned, variants } from '../vary.ts';

/** Settings with all parameters at their extremes, of those with planesFor. */
const QUICK_PAIRS = 16;
const MOST_PAIRS = 64;
/** Values at which a plane is left out just before it is named. */
const MOST_LEAVING = 48;
/** What a quick proof takes for them. */
const LEAVING_SECONDS = 0.2;
const PATCH = { x: -8, y: -5, width: 24, height: 16 };

export const planes: Check = {
  name: 'planes',
  promise: 'It paints the planes that its values need and no others, with colours not multiplied by alpha.',
  needs: ['runs'],
  async run(bench) {
    const base = bench.quick ? SKETCHED : SMALL;
    const trials = trialsOf(bench, base);
    const leaving = [
      ...unevenLists(bench.effect, base),
      ...leavingTrials(bench.effect, base).slice(0, MOST_LEAVING),
    ];
    let budget: Budget | undefined;
    await overTrials(
      bench,
      [...trials, ...leaving],
      (sample) => {
        tryPlanes(bench, sample);
        tryLeftOut(bench, sample);
      },
      (done) => done > trials.length && (budget ??= openBudget(bench, { quick: LEAVING_SECONDS })).isOver(),
    );
    tryAskedAgain(bench);
    await tryIdlePlanes(bench, base);
    await tryStraight(bench, base);
    return { status: 'passed' };
  },
};

/** Those that "parameters" prepares, too. Without planesFor only what is painted may go by the values. */
function trialsOf({ effect, quick }: Bench, base: Trial): Trial[] {
  if (!effect.planesFor) return [HOME, ...variants(effect, base)];
  return [...variants(effect, base), ...thinned(pairs(effect, base), quick ? QUICK_PAIRS : MOST_PAIRS)];
}

/** @throws Failed where planesFor answers otherwise once it has been asked of other values. */
function tryAskedAgain(bench: Bench): void {
  const { effect } = bench;
  if (!effect.planesFor) return;
  const trials = variants(effect, SKETCHED);
  const ask = (trial: Trial) => {
    try {
      return [...effect.planesFor!(bench.setting(trial).parameters as never)].sort().join(', ');
    } catch {
      // That it throws is for those to say who prepare with these values.
      return undefined;
    }
  };
  const before = trials.map(ask);
  for (const [k, trial] of [...trials.entries()].reverse()) {
    const again = ask(trial);
    if (again === before[k]) continue;
    throw new Failed(trial, {
      expected: `planesFor to answer the same for the same values, ${before[k]}`,
      received: `${again || 'none'} once it has been asked of others`,
      remedy:
        'Let planesFor make a new list each time, and change none of the module: filter gives one, splice and sort change the one they have.',
    });
  }
}

function tryPlanes(bench: Bench, sample: Sample): void {
  const layer = neutralLayer(sample.planes, PATCH.width, PATCH.height);
  let error: unknown;
  try {
    bench.paintInto(sample, PATCH, layer);
  } catch (caught) {
    error = caught;
  }
  const added = PLANE_NAMES.find((name) => layer[name] && !sample.planes.includes(name));
  if (added) throw undeclared(sample, added, 'put into the layer', showLayer(layer));
  if (error === undefined) return;
  const lent = paintLent(bench, sample, error);
  if (lent.touched) throw undeclared(sample, lent.touched, 'written', lent.shown);
  throw new Failed(sample.trial, {
    expected: `paint to do with the planes it asked for, ${sample.planes.join(', ')}`,
    received: error instanceof Error ? `${error.name}: ${error.message}` : String(error),
    remedy: `Before using a plane, look whether the layer has it: the host leaves out those that planesFor does not name.`,
  });
}

/** Paints with every plane there is, to see which of them the effect writes. */
function paintLent(
  bench: Bench,
  sample: Sample,
  before: unknown,
): { touched?: PlaneName; shown: ReturnType<typeof showLayer> } {
  const lent = neutralLayer(PLANE_NAMES, PATCH.width, PATCH.height);
  try {
    bench.paintInto(sample, PATCH, lent);
  } catch {
    // It was no plane that it missed.
    throw thrown(bench, sample.trial, 'paint', before);
  }
  const neutral = neutralLayer(PLANE_NAMES, PATCH.width, PATCH.height);
  const only = (layer: AnyLayer, name: PlaneName) => ({ ...PATCH, [name]: layer[name] });
  const touched = PLANE_NAMES.find(
    (name) => !sample.planes.includes(name) && differenceOf(only(lent, name), only(neutral, name)),
  );
  return { touched, shown: showLayer(lent) };
}

function undeclared(
  { trial, planes }: Sample,
  plane: PlaneName,
  done: string,
  shown: ReturnType<typeof showLayer>,
): Failed {
  return new Failed(trial, {
    expected: `only ${planes.join(', ')} to be painted`,
    received: `${plane}, ${done} all the same`,
    remedy: `Declare ${plane} in "planes" (and let planesFor name it for these values), or leave it alone.`,
    picture: sideBySide([shown], 'What was painted, with the plane that was not declared.'),
  });
}
