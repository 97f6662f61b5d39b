import * as fc from 'fast-check';
import type { NumberParameter, Parameter, ParameterSet, ParameterValue } from '../parameter.ts';
import { endsOf, isSameValue } from '../value.ts';
import type { Bench } from './bench.ts';
import type { Budget } from './budget.ts';
import { insideValues } from './combined.ts';
import { Failed, Refused } from './failed.ts';
import { PROOF_PICTURES } from './proof-swatches.ts';
import { textValue } from './random-text.ts';
import { HOME, type Trial } from './trial.ts';
import { isLeft } from './vary.ts';

/** The layouts that every effect has to close over. */
export const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:1/3'] as const;

/** Shears that are no halves and thirds, each tried once as a drop and as a brick. */
export const SHEARS = ['1/4', '1/5', '2/3', '2/5', '3/4', '3/7', '3/8'];
const SHEARED = ['drop', 'brick'].flatMap((kind) => SHEARS.map((shear) => `${kind}:${shear}`));

/** The same random settings in every run, so that a proof can be repeated. */
const RANDOM_SEED = 20_261_125;
/** Calls spent on making a failing setting smaller. */
const SHRINK_CALLS = 60;
const STEPS = 1000;

/** Any value a parameter takes; extremes often. Absent, the default: what a smaller failing setting comes down to. */
export function parameterValue(parameter: Parameter): fc.Arbitrary<ParameterValue> {
  switch (parameter.kind) {
    case 'number':
      return numberValue(parameter);
    case 'choice':
      return fc.constantFrom(...parameter.options);
    case 'switch':
      return fc.boolean();
    case 'colour':
      return COLOUR;
    case 'numbers':
      return listValue(numberValue(parameter), parameter);
    case 'colours':
      return listValue(COLOUR, parameter);
    case 'text':
      return textValue(parameter);
    case 'picture':
      return fc.constantFrom(...PROOF_PICTURES);
  }
}

const COLOUR = fc.oneof(
  fc.constantFrom('#000000', '#ffffff', '#ff0000'),
  fc.integer({ min: 0, max: 0xffffff }).map((bits) => `#${bits.toString(16).padStart(6, '0')}`),
);

/** Any list of such items; the fewest and the most often, and often all of them one. */
function listValue<T>(
  item: fc.Arbitrary<T>,
  { least, most }: { readonly least: number; readonly most: number },
): fc.Arbitrary<T[]> {
  const size = 'max' as const;
  return fc.oneof(
    { arbitrary: fc.array(item, { minLength: least, maxLength: most, size }), weight: 3 },
    { arbitrary: fc.array(item, { minLength: least, maxLength: least }), weight: 1 },
    { arbitrary: fc.array(item, { minLength: most, maxLength: most, size }), weight: 1 },
    {
      arbitrary: fc.tuple(item, fc.integer({ min: least, max: most })).map(([one, count]) => {
        return Array.from({ length: count }, () => one);
      }),
      weight: 1,
    },
  );
}

function numberValue(range: Pick<NumberParameter, 'min' | 'max' | 'whole' | 'unit'>): fc.Arbitrary<number> {
  const [min, max] = endsOf(range);
  const inside = range.whole
    ? fc.integer({ min, max })
    : fc
        .integer({ min: 0, max: STEPS })
        .map((step) => Number((min + ((max - min) * step) / STEPS).toPrecision(12)));
  const special = insideValues(range);
  return fc.oneof(
    { arbitrary: inside.filter((value) => value >= min && value <= max), weight: 3 },
    { arbitrary: fc.constantFrom(min, max), weight: 2 },
    ...(special.length > 0 ? [{ arbitrary: fc.constantFrom(...special), weight: 1 }] : []),
  );
}

/** Any values of a parameter set, only those that are not at their defaults. */
export function parameterValues(parameters: ParameterSet): fc.Arbitrary<Record<string, ParameterValue>> {
  const each = Object.entries(parameters).map(([name, parameter]) => [
    name,
    fc.option(parameterValue(parameter), { nil: undefined, freq: 2 }),
  ]);
  return fc
    .record(Object.fromEntries(each) as Record<string, fc.Arbitrary<ParameterValue | undefined>>)
    .map((values) => {
      const given = Object.entries(values).filter(
        ([name, value]) => value !== undefined && !isSameValue(value, parameters[name].default),
      );
      return Object.fromEntries(given) as Record<string, ParameterValue>;
    });
}

/** Any setting over a small box. */
export function anyTrial(parameters: ParameterSet, quality = HOME.quality): fc.Arbitrary<Trial> {
  const tenths = fc.oneof(
    { arbitrary: fc.integer({ min: 20, max: 400 }), weight: 6 },
    { arbitrary: fc.integer({ min: 20, max: 60 }), weight: 1 },
    { arbitrary: fc.integer({ min: 400, max: 1200 }), weight: 1 },
  );
  const side = tenths.map((count) => count / 10);
  return fc.record({
    layout: fc.constantFrom(...LAYOUTS, ...SHEARED),
    width: side,
    height: side,
    pixelsPerMm: fc.constantFrom(HOME.pixelsPerMm, 3, 11.8, 1.2, 24, 47.2),
    seed: fc.constantFrom(HOME.seed, 'a', 'b', '1', 'Indigo 17'),
    quality: fc.constantFrom(quality, 'sketch' as const),
    parameters: parameterValues(parameters),
  });
}

/** What a search over random settings came to. */
export interface Search {
  /** Settings tried, without those that the effect refused. */
  readonly tried: number;
  readonly refused: number;
}

/**
 * Tries random settings and, where one fails, looks for the smallest that still fails.
 *
 * @param look Throws Failed where the setting fails; a setting that is refused does not count.
 * @param budget What is left when it is over is not tried.
 * @throws Failed of the smallest setting found.
 */
export async function searchTrials(
  bench: Bench,
  {
    trials,
    runs,
    budget,
  }: { readonly trials: fc.Arbitrary<Trial>; readonly runs: number; readonly budget: Budget },
  look: (trial: Trial) => Promise<void>,
): Promise<Search> {
  let [tried, refused, shrinks] = [0, 0, 0];
  let smallest: Failed | undefined;
  const property = fc.asyncProperty(trials, async (trial) => {
    if (smallest ? ++shrinks > SHRINK_CALLS : budget.isOver()) return;
    try {
      await look(trial);
      tried++;
    } catch (error) {
      if (error instanceof Refused || isLeft(bench, trial, error)) refused++;
      else {
        if (error instanceof Failed) smallest = error;
        throw error;
      }
    }
  });
  const outcome = await fc.check(property, {
    seed: RANDOM_SEED,
    numRuns: bench.quick ? Math.ceil(runs / 3) : runs,
  });
  if (smallest) throw smallest;
  if (outcome.failed) throw outcome.errorInstance;
  return { tried, refused };
}
