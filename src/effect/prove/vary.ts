import { planesRead, readsArtwork } from '../artwork.ts';
import type { AnyEffect } from '../effect.ts';
import type {
  ColoursParameter,
  NumbersParameter,
  Parameter,
  ParameterSet,
  ParameterValue,
} from '../parameter.ts';
import { endsOf, isSameValue } from '../value.ts';
import type { Bench, Sample } from './bench.ts';
import { withCure } from './cure.ts';
import { Crashed, Failed, Refused } from './failed.ts';
import { PROOF_PICTURES } from './proof-swatches.ts';
import { extremeTexts } from './random-text.ts';
import { HOME, type Trial } from './trial.ts';

/** A small box: trials that are many must each be cheap. */
export const SMALL: Trial = { ...HOME, width: 15, height: 11 };

/** The same at the quality that costs least. */
export const SKETCHED: Trial = { ...SMALL, quality: 'sketch' };

/** The defaults, and each parameter by itself at each of its extremes. */
export function variants({ parameters }: AnyEffect, base: Trial = SMALL): Trial[] {
  const changes = Object.entries<Parameter>(parameters).flatMap(([name, parameter]) =>
    extremesOf(parameter)
      .filter((value) => !isSameValue(value, parameter.default))
      .map((value) => ({ ...base, parameters: { ...base.parameters, [name]: value } })),
  );
  return [base, ...changes];
}

/** Whether all that a trial sets are options and switches: what may go another way altogether. */
export function isWord({ parameters }: AnyEffect, { parameters: set }: Trial): boolean {
  return Object.keys(set).every((name) => WORDS.includes((parameters as ParameterSet)[name].kind));
}

const WORDS: readonly Parameter['kind'][] = ['choice', 'switch'];

/** Each option and each position of a switch that is not the default, by itself. */
export function words(effect: AnyEffect, base: Trial = SMALL): Trial[] {
  return variants(effect, base)
    .slice(1)
    .filter((trial) => isWord(effect, trial));
}

/** The ends of a parameter's range, all options, or what a colour is at its most. */
export function extremesOf(parameter: Parameter): readonly ParameterValue[] {
  switch (parameter.kind) {
    case 'number':
      return endsOf(parameter);
    case 'choice':
      return parameter.options;
    case 'switch':
      return [true, false];
    case 'colour':
      return ['#000000', '#ffffff'];
    case 'numbers':
      return numberLists(parameter);
    case 'colours':
      return colourLists(parameter);
    case 'text':
      return extremeTexts(parameter);
    case 'picture':
      return PROOF_PICTURES;
  }
}

/** The fewest and the most, of the least and of the greatest numbers, and both by turns. */
function numberLists(parameter: NumbersParameter): readonly (readonly number[])[] {
  const { least, most } = parameter;
  const [min, max] = endsOf(parameter);
  return [
    listOf(least, () => min),
    listOf(least, () => max),
    listOf(most, (index) => (index % 2 === 0 ? max : min)),
    listOf(most, () => min),
    listOf(most, () => max),
  ];
}

/** So many colours that are far apart. */
export function spreadColours(length: number): string[] {
  return listOf(length, (index) => `#${spreadColour(index).toString(16).padStart(6, '0')}`);
}

/** So many numbers over the whole of a range, each far from the one before. */
export function spreadNumbers(parameter: NumbersParameter, length: number): number[] {
  const [min, max] = endsOf(parameter);
  const values = listOf(length, (index) => min + (max - min) * ((0.1 + index * 0.6180339887498949) % 1));
  return values.map((value) => (parameter.whole ? Math.round(value) : Number(value.toPrecision(6))));
}

/** The fewest and the most colours, all of them one, and all of them far apart. */
function colourLists({ least, most }: ColoursParameter): readonly (readonly string[])[] {
  return [listOf(least, () => '#000000'), spreadColours(most), listOf(most, () => '#ffffff')];
}

/** Steps by the golden ratio through all colours: no two of 256 are the same. */
function spreadColour(index: number): number {
  return Math.floor(((index * 0.6180339887498949) % 1) * 0x1000000);
}

function listOf<T>(length: number, item: (index: number) => T): T[] {
  return Array.from({ length }, (_, index) => item(index));
}

/**
 * Every pair of parameters at every pair of their extremes, all parameters at once, in as few trials as a
 * two-level orthogonal array of strength 2 needs: the rows of a Hadamard matrix of Sylvester's construction,
 * whose entry (row, column) is the parity of the bits that both numbers have.
 */
export function pairs(effect: AnyEffect, base: Trial = SMALL): Trial[] {
  return extremesByParity(effect, base, 0);
}

/**
 * The same with all extremes changed about. Together with the others every three parameters come by all
 * their extremes: what breaks at two of them does not hide behind a third that makes everything flat.
 */
export function mirroredPairs(effect: AnyEffect, base: Trial = SMALL): Trial[] {
  return extremesByParity(effect, base, 1);
}

function extremesByParity({ parameters }: AnyEffect, base: Trial, parity: 0 | 1): Trial[] {
  const names = Object.keys(parameters);
  const extremesByName = names.map((name) => extremesOf(parameters[name]));
  const rows = 2 ** Math.ceil(Math.log2(names.length + 1));
  return Array.from({ length: rows }, (_, row) => {
    const values = names.map((name, index) => {
      const extremes = extremesByName[index];
      const isFirst = bitsOf(row & (index + 1)) % 2 === parity;
      return [name, extremes[isFirst ? 0 : extremes.length - 1]];
    });
    return { ...base, parameters: Object.fromEntries(values) };
  });
}

function bitsOf(value: number): number {
  return value === 0 ? 0 : (value & 1) + bitsOf(value >>> 1);
}

/** Ways to be, besides the defaults, that a check tries where it cannot try all. */
const QUICK = { alone: 6, paired: 3 };
const THOROUGH = { alone: 24, paired: 8 };

/**
 * The home trial, and over a small box a spread of the parameters' extremes, alone and together; where it has to be
 * quick as sketches, which other checks have prepared too.
 */
export function spread({ effect, quick }: Bench): Trial[] {
  const { alone, paired } = quick ? QUICK : THOROUGH;
  const base = quick ? SKETCHED : SMALL;
  const all = [
    HOME,
    ...thinned(variants(effect, base).slice(1), alone),
    ...thinned(pairs(effect, base), paired),
  ];
  return [...all, ...bareGround(effect, HOME)];
}

/** The same with nothing below, and over flat and over transparent artwork, for an effect that reads it. */
export function bareGround(effect: AnyEffect, trial: Trial): Trial[] {
  const bare: Trial[] = planesRead(effect).length > 0 ? [{ ...trial, below: 'nothing' }] : [];
  return [...bare, ...otherArtworks(effect, trial)];
}

/** The same over and under what is farthest from usual, where numbers are least likely to be sound. */
export function extremeGround(effect: AnyEffect, trial: Trial): Trial[] {
  const below: Trial[] = planesRead(effect).length > 0 ? [{ ...trial, below: 'extremes' }] : [];
  const artworks = readsArtwork(effect) ? (['black', 'white'] as const) : [];
  return [...below, ...artworks.map((artwork) => ({ ...trial, artwork }))];
}

/** The same over other artwork, for an effect that reads it. */
export function otherArtworks(effect: AnyEffect, trial: Trial): Trial[] {
  if (!readsArtwork(effect)) return [];
  return (['flat', 'transparent'] as const).map((artwork) => ({ ...trial, artwork }));
}

/** At most `count` of the items, evenly taken from first to last. */
export function thinned<T>(items: readonly T[], count: number): T[] {
  if (items.length <= count) return [...items];
  return Array.from(
    { length: count },
    (_, k) => items[Math.round((k * (items.length - 1)) / Math.max(1, count - 1))],
  );
}

type Look = (sample: Sample) => void | Promise<void>;

/**
 * Looks at trials one after the other, each prepared for this check or for one before; where one fails, its
 * parameters are put back to their defaults one by one as long as it still does. Those the effect refuses are passed over, but not
 * all of them may be.
 *
 * @param isEnough Asked before each, with how many were done: the rest is left.
 * @returns How many were looked at, refused and left.
 * @throws Failed of the smallest setting.
 */
export async function overTrials(
  bench: Bench,
  trials: readonly Trial[],
  look: Look,
  isEnough: (done: number) => boolean = () => false,
): Promise<{ tried: number; refused: number; left: number }> {
  let refusal: Refused | undefined;
  let [done, refused] = [0, 0];
  for (const trial of trials) {
    if (isEnough(done)) break;
    done++;
    const outcome = await outcomeOf(bench, trial, look);
    if (isLeft(bench, trial, outcome)) continue;
    if (outcome instanceof Failed) {
      const failed = await smallest(bench, trial, outcome, look);
      throw await withCure(failed, trial, async (cured) => !(await outcomeOf(bench, cured, look)));
    }
    if (!outcome) continue;
    refusal = outcome;
    refused++;
  }
  if (refusal && refused === trials.length) throw refusedAll(refusal);
  return { tried: done - refused, refused, left: trials.length - done };
}

/** Whether it is a crash that the check of parameters will tell of. */
export function isLeft({ leavesCrashes }: Bench, { parameters }: Trial, outcome: unknown): boolean {
  return leavesCrashes === true && outcome instanceof Crashed && Object.keys(parameters).length > 0;
}

async function outcomeOf(bench: Bench, trial: Trial, look: Look): Promise<Failed | Refused | undefined> {
  try {
    await look(await bench.shared(trial));
    return undefined;
  } catch (error) {
    if (error instanceof Failed || error instanceof Refused) return error;
    throw error;
  }
}

/** The same failure with as few parameters off their defaults as it still shows with. */
export async function smallest(bench: Bench, trial: Trial, first: Failed, look: Look): Promise<Failed> {
  let [least, failed] = [trial, first];
  for (const name of Object.keys(trial.parameters)) {
    const { [name]: _, ...parameters } = least.parameters;
    const tried = { ...least, parameters };
    const outcome = await outcomeOf(bench, tried, look);
    if (outcome instanceof Failed) [least, failed] = [tried, outcome];
  }
  return failed;
}

function refusedAll(refusal: Refused): Failed {
  return new Failed(refusal.trial, {
    expected: 'at least one of the settings tried to be taken',
    received: `a refusal of each, the last: ${refusal.message.replace(/\.$/, '')}`,
    remedy: 'Refuse only what cannot be drawn.',
  });
}
