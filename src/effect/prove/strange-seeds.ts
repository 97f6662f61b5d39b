import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { channelsOf, deviationOf } from './channels.ts';
import { differenceOf } from './compare.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { trySound } from './try-sound.ts';
import { SKETCHED } from './vary.ts';

const VIEW = { x: -20, y: -12, width: 96, height: 72 };
const LONG = 'x'.repeat(3000);
/** Seeds that are taken for one where only some of their bits or letters are looked at. */
const ALIKE: readonly (readonly [first: string, second: string])[] = [
  [`${LONG}1`, `${LONG}2`],
  [`1${LONG}`, `2${LONG}`],
  ['1', '4294967297'],
  ['9007199254740992', '9007199254740993'],
  ['1', '-1'],
];
const STRANGE = [' ', '0', '1e309', 'NaN', '\u00e9\u{1f9f5}\u0000%'];

/**
 * Tries seeds as no author thinks of them: very long, huge numbers, numbers that are none, other letters.
 *
 * @param looksAtSeed Whether it reads the seed itself; those who draw by `random` alone get theirs from the host.
 * @returns How many were tried.
 * @throws Failed where a texture is unsound or flat, or two of them are the same.
 */
export async function tryStrangeSeeds(bench: Bench, looksAtSeed: boolean): Promise<number> {
  const painted = new Map<string, AnyLayer>();
  const paint = async (seed: string) => {
    const layer = painted.get(seed) ?? (await paintOf(bench, { ...SKETCHED, seed }));
    painted.set(seed, layer);
    return layer;
  };
  const isFlatAtHome = isFlat(await paint(SKETCHED.seed));
  for (const seed of looksAtSeed ? STRANGE : STRANGE.slice(-1)) {
    const layer = await paint(seed);
    if (isFlat(layer) && !isFlatAtHome) throw flat(seed, layer);
  }
  for (const [first, second] of looksAtSeed ? ALIKE : ALIKE.slice(0, 1)) {
    const [one, other] = [await paint(first), await paint(second)];
    if (!isFlatAtHome && !differenceOf(one, other)) throw alike(first, second, one);
  }
  return painted.size;
}

async function paintOf(bench: Bench, trial: Trial): Promise<AnyLayer> {
  const sample = await bench.shared(trial);
  trySound(bench, sample);
  return bench.paint(sample, VIEW);
}

function isFlat(layer: AnyLayer): boolean {
  return channelsOf(layer).every(({ values }) => !(deviationOf(values) > 0));
}

function flat(seed: string, layer: AnyLayer): Failed {
  return new Failed(
    { ...SKETCHED, seed },
    {
      expected: 'a texture of the same kind from any seed',
      received: `one flat tone from seed ${inWords(seed)}`,
      remedy: 'Take a seed for a text of any length and any letters: random("a name") makes numbers of it.',
      picture: sideBySide([showLayer(layer)]),
    },
  );
}

function alike(first: string, second: string, layer: AnyLayer): Failed {
  return new Failed(
    { ...SKETCHED, seed: second },
    {
      expected: 'another texture from another seed',
      received: `the same floats from ${inWords(first)} and from ${inWords(second)}`,
      remedy:
        'Look at the whole seed, as a text: random("a name") of the setting does. A number loses its last digits, a part of a text the rest.',
      picture: sideBySide([showLayer(layer)]),
    },
  );
}

function inWords(seed: string): string {
  return seed.length > 40 ? `${seed.slice(0, 3)}...${seed.slice(-3)} of ${seed.length} letters` : `"${seed}"`;
}
