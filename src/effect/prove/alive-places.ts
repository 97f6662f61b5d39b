import type { Parameter } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Bench } from './bench.ts';
import type { Claim } from './claim.ts';
import { variedTexts } from './random-text.ts';
import { HOME, type Trial } from './trial.ts';
import { pairs, variants } from './vary.ts';

/** Large enough to hold what stands here and there, as knots do. */
export const WIDE: Trial = { ...HOME, width: 60, height: 48, pixelsPerMm: 2, quality: 'sketch' };
/** Large enough for what stands once or twice in a square decimetre. */
const LARGE: Trial = { ...WIDE, width: 200, height: 160, pixelsPerMm: 0.8 };
/** What is rare at a low number may by chance not stand on a large box. */
const OTHER_SEEDS = ['a', 'b', 'c'] as const;
/** Large enough for whole numbers of what is as wide as a wall's panel, and for what is rarest. */
const WALL: Trial = { ...WIDE, width: 900, height: 720, pixelsPerMm: 0.2 };
/** Texts of all sorts, beside which entries of a list are tried: they may name them. */
const MOST_TEXTS = 4;
/** Presets that set a parameter, tried over the wide box before anything that costs more. */
const MOST_PRESETS = 3;

const GATES: readonly Parameter['kind'][] = ['choice', 'switch'];
const LISTS: readonly Parameter['kind'][] = ['numbers', 'colours', 'text'];

interface Where {
  readonly bench: Bench;
  readonly base: Trial;
  readonly name: string;
  readonly claim: Claim;
  /** Where another claim of this parameter showed. */
  readonly showing?: Trial;
}

/** A surrounding and how many of a claim's values to try in it: the first two are its ends. */
type Place = readonly [surrounding: Trial, count: number];

/**
 * Where a claim may show, the likeliest first: what showed another claim of this parameter; the defaults, over a small
 * and a wide box; presets that set it; the defaults over a large box, also with each number that is 0 by default switched
 * on, and with other seeds for part of a number that does
 * something elsewhere; then all presets and the others at
 * their extremes, what switches (options and switches) by itself, then all together, then numbers by themselves;
 * and all of these over the wide box. Entries of lists show beside texts, too, and beside the longest of other lists.
 */
export function* surroundings({
  bench,
  base,
  name,
  claim: { values, isOfEntry },
  showing,
}: Where): Generator<Place> {
  const { effect, presets = [] } = bench;
  const all = values.length;
  if (showing) yield* [place(showing, 2), place(widened(showing), all)];
  const naming = isOfEntry ? besideTexts(bench, base) : [];
  yield place(base, 2);
  for (const trial of naming) yield place(trial, 2);
  yield* [place(WIDE, 2), place(base, all), place(WIDE, all)];
  const { kind, unit } = effect.parameters[name] as { kind: string; unit?: string };
  const isLong = kind === 'number' && unit === 'mm';
  const needsWall = isLong && values.every((value) => Number(value) > WIDE.width / 2);
  if (needsWall) yield place(WALL, 2);
  const sets = ({ parameters }: Trial) => parameters[name] !== undefined;
  const made = presets.map(({ parameters }): Trial => ({ ...base, parameters }));
  const alone = variants(effect, base)
    .slice(1)
    .filter((trial) => !sets(trial));
  const gating = isOfEntry ? [...GATES, ...LISTS] : GATES;
  const gates = alone.filter((trial) => isOf(gating, effect.parameters, trial));
  const setting = made.filter(sets).slice(0, MOST_PRESETS);
  for (const trial of setting) yield place(widened(trial), all);
  yield place(LARGE, 2);
  for (const { parameters } of setting) yield place({ ...LARGE, parameters }, 2);
  for (const trial of alone.filter((trial) => isSwitchedOn(effect.parameters, trial)))
    yield* [place(trial, 2), place(widened(trial), 2), place({ ...LARGE, parameters: trial.parameters }, 2)];
  if (kind === 'number' && showing) for (const seed of OTHER_SEEDS) yield place({ ...LARGE, seed }, 2);
  const others = [
    ...made.filter(sets).map((trial) => place(trial, all)),
    ...made.filter((trial) => !sets(trial)).map((trial) => place(trial, all)),
    ...gates.map((trial) => place(trial, 2)),
    ...pairs(effect, base).map((trial) => place(trial, all)),
    ...alone
      .filter((trial) => !gates.includes(trial))
      .reverse()
      .map((trial) => place(trial, 2)),
  ];
  yield* others;
  for (const [trial, count] of others) yield place(widened(trial), count);
  if (kind === 'number' && !needsWall) yield place(WALL, all);
}

function place(surrounding: Trial, count: number): Place {
  return [surrounding, count];
}

/** All texts of the effect at once, by turns such as have all their characters between them. */
function besideTexts({ effect }: Bench, base: Trial): Trial[] {
  const texts = Object.entries<Parameter>(effect.parameters).flatMap(([name, parameter]) =>
    parameter.kind === 'text' ? [[name, variedTexts(parameter, MOST_TEXTS)] as const] : [],
  );
  const most = Math.max(0, ...texts.map(([, varied]) => varied.length));
  return Array.from({ length: most }, (_, row) => ({
    ...base,
    parameters: Object.fromEntries(texts.map(([name, varied]) => [name, varied[row % varied.length]])),
  }));
}

function isOf(
  kinds: readonly Parameter['kind'][],
  parameters: Readonly<Record<string, Parameter>>,
  trial: Trial,
): boolean {
  return Object.keys(trial.parameters).some((name) => kinds.includes(parameters[name].kind));
}

/** Whether its one number, which does nothing by default, does as much as it can. */
function isSwitchedOn(parameters: Readonly<Record<string, Parameter>>, trial: Trial): boolean {
  return Object.entries(trial.parameters).every(([name, value]) => {
    const parameter = parameters[name];
    return parameter.kind === 'number' && parameter.default === 0 && value === endsOf(parameter)[1];
  });
}

function widened(trial: Trial): Trial {
  return { ...WIDE, parameters: trial.parameters };
}
