import type { AnyLayer } from '../layer.ts';
import { Failed, type Refused } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { likenessOf, spokenSeed } from './seed-texts.ts';
import type { Trial } from './trial.ts';

/** What one seed paints. */
export interface Painted {
  readonly seed: string;
  readonly layer: AnyLayer;
}

const WHOLE_SEED =
  'Look at the whole seed, as a text: random("a name") of the setting does. A number loses its last digits, a part of a text the rest.';
const CUT_SHORT =
  'Somewhere few bits are left of what is drawn: a Uint8Array, & 255, below(n) or a short table keep no more. Keep all 32 of bits(), in a Uint32Array, or draw more than once.';

/**
 * What is said of seeds that paint the same floats.
 *
 * @param groups Of those that agree; the first is the one that is shown.
 * @param tried How many seeds were compared: how many pairs of them agree tells how many textures there are.
 */
export function alike(
  trial: Trial,
  groups: readonly Painted[][],
  tried: number,
  looksAtSeed: boolean,
): Failed {
  const [group] = groups;
  const seeds = group.map(({ seed }) => seed);
  const likeness = looksAtSeed ? likenessOf(seeds) : undefined;
  const pairs = groups.reduce((sum, { length }) => sum + (length * (length - 1)) / 2, 0);
  const textures = Number(((tried * (tried - 1)) / (2 * pairs)).toPrecision(1));
  const names = seeds.slice(0, MOST_NAMED).map(spokenSeed);
  const named = `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
  return new Failed(trial, {
    expected: 'another texture from another seed',
    received: likeness
      ? `the same floats from seeds ${named}, ${likeness}`
      : `the same floats from seeds ${named}; so many of ${tried} seeds agree where there are some ${textures} textures in all`,
    remedy: likeness ? WHOLE_SEED : CUT_SHORT,
    picture: sideBySide([showLayer(group[0].layer)], `What seed ${names[0]} paints, and ${names[1]} too.`),
    beside: { ...trial, seed: seeds[0] },
  });
}

/** Seeds that a message lists. */
const MOST_NAMED = 3;

export function flat(trial: Trial, layer: AnyLayer): Failed {
  return new Failed(trial, {
    expected: 'a texture of the same kind from any seed',
    received: `one flat tone from seed ${spokenSeed(trial.seed)}`,
    remedy: 'Take a seed for a text of any length and any letters: random("a name") makes numbers of it.',
    picture: sideBySide([showLayer(layer)]),
  });
}

export function refusedSeed(refusal: Refused, trial: Trial): Failed {
  return new Failed(trial, {
    expected: 'a texture from any seed',
    received: `a refusal of seed ${spokenSeed(trial.seed)}: ${refusal.message.replace(/\.$/, '')}`,
    remedy: 'Refuse values and sizes that cannot be drawn, but no seed: nobody chose what it leads to.',
  });
}
