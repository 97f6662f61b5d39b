import { Fault } from '../../../fault.ts';
import type { ArtworkSetting, Setting } from '../../effect.ts';
import { type Bench, thrown } from '../bench.ts';
import type { Check } from '../check.ts';
import { dataDifference } from '../compare.ts';
import { unshared } from '../copy-of-model.ts';
import { Failed } from '../failed.ts';
import { writtenInPictures } from '../proof-swatches.ts';
import { HOME, type Trial } from '../trial.ts';
import { SKETCHED, thinned, variants } from '../vary.ts';
import { writtenInto } from '../written-into.ts';

export const setting: Check = {
  name: 'setting',
  promise: 'It leaves its parameters, box and setting as they were given.',
  needs: ['runs'],
  async run(bench) {
    const error = await trySetting(bench, HOME);
    if (error !== undefined && !(Fault.is(error) && error.kind === 'usage'))
      throw thrown(bench, HOME, 'prepare', error);
    // Another option may go another way; a crash there is for others to tell.
    const others = variants(bench.effect, SKETCHED).slice(1);
    for (const trial of bench.quick ? thinned(others, QUICK_OTHERS) : others) await trySetting(bench, trial);
    return { status: 'passed' };
  },
};

/** Extremes that a quick proof tries. */
const QUICK_OTHERS = 16;

/**
 * @returns What prepare threw.
 * @throws Failed where it wrote into what it was given.
 */
async function trySetting(bench: Bench, trial: Trial): Promise<unknown> {
  const given = bench.setting(trial);
  const written: string[] = [];
  const watched = watchWrites(
    {
      ...given,
      parameters: watchParameters(given, written),
      box: watchBox(given, written),
    },
    '',
    written,
  );
  // An array cannot be watched; what was written into one is seen afterwards.
  const { artwork } = given as Partial<ArtworkSetting>;
  const before = unshared(structuredClone(artwork));
  let error: unknown;
  try {
    await bench.callPrepare(trial, watched as Setting);
  } catch (caught) {
    error = caught;
  }
  const place = writtenInPictures();
  if (place) throw writtenInto(place, trial);
  const changed = dataDifference(before, artwork, 'artwork');
  if (changed) written.push(changed);
  if (written.length > 0) {
    throw new Failed(trial, {
      expected: 'the setting to be left as it was given',
      received: `a write to ${written[0]}`,
      remedy: remedyFor(written[0]),
    });
  }
  return error;
}

/** A copy of the parameters holds the same lists. */
function remedyFor(written: string): string {
  const [owner, name, index] = written.split(/[.[]/);
  if (owner === 'artwork')
    return `Copy what you want to change: artwork.${name}.slice() is a copy. All steps of a render share the one.`;
  return owner === 'parameters' && index !== undefined
    ? `Copy the list before you change it: [...parameters.${name}] is a copy. sort, reverse and splice change the list itself.`
    : 'Copy what you want to change: { ...parameters } is a copy.';
}

/** A list is written to by sorting it, too. */
function watchParameters({ parameters }: Setting, written: string[]): Setting['parameters'] {
  const inner = Object.entries(parameters).map(([name, value]) => [
    name,
    Array.isArray(value) ? watchWrites([...value], `parameters.${name}.`, written) : value,
  ]);
  return watchWrites(Object.fromEntries(inner), 'parameters.', written);
}

function watchBox({ box }: Setting, written: string[]): Setting['box'] {
  const inner = {
    ...box,
    layout: watchWrites({ ...box.layout }, 'box.layout.', written),
    lattice: watchWrites({ ...box.lattice }, 'box.lattice.', written),
  };
  return watchWrites(inner, 'box.', written);
}

/** The object, taking every write and noting its name. */
function watchWrites<T extends object>(target: T, prefix: string, written: string[]): T {
  const note = (key: string | symbol) => void written.push(prefix + String(key));
  return new Proxy(target, {
    set(object, key, value) {
      note(key);
      return Reflect.set(object, key, value);
    },
    deleteProperty(object, key) {
      note(key);
      return Reflect.deleteProperty(object, key);
    },
    defineProperty(object, key, descriptor) {
      return Reflect.defineProperty(object, key, descriptor);
    },
  });
}
