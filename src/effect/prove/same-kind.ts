import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { openBudget } from './budget.ts';
import { type Channel, channelsOf, deviationOf, meanOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { spokenSeed } from './seed-texts.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

const SEEDS = ['prove', 'another', 'a third', 'linen', 'north', '7', 'loom', 'weft'];
/** Wide, then wider: what is sparse differs from seed to seed by chance, and the less so the more of it there is. */
const PLACES: readonly Trial[] = [
  { ...HOME, width: 80, height: 60, pixelsPerMm: 2, quality: 'sketch' },
  { ...HOME, width: 240, height: 180, pixelsPerMm: 0.7, quality: 'sketch' },
];
/** How far paint moves is left out: few runs make all of it. */
const LOOKED_AT = ['load', 'shade', 'relief', 'alpha of tint'];

interface Look {
  readonly name: string;
  of(channel: Channel): number;
  /** How many times the least the greatest may be. */
  readonly most: number;
}

/**
 * Of the built-in effects, over ten seeds and 80 x 60 mm, the contrast of alcohol-lift differs most, 1.64 times, and the
 * mean of sponged, 1.48 times.
 */
const LOOKS: readonly Look[] = [
  { name: 'a contrast', of: ({ values, least }) => Math.max(least, deviationOf(values)), most: 2.5 },
  {
    name: 'a mean',
    of: ({ name, values }) => (name === 'relief' ? 1 : Math.max(0.1, meanOf(values))),
    most: 1.75,
  },
];

/** What a quick proof spends on each place; what it has not done by then it leaves. */
const SECONDS = { quick: 0.3 };

/** How strong a channel is from one of the seeds. */
interface Strength {
  readonly seed: string;
  readonly layer: AnyLayer;
  readonly channel: Channel;
}

/**
 * Whether the textures of several seeds are equally strong.
 *
 * @throws Failed where one has several times the contrast or the tone of another, over a large box too.
 */
export async function trySameKind(bench: Bench): Promise<void> {
  let found: Failed | undefined;
  for (const place of PLACES) {
    found = await unlessRefused(() => spreadAt(bench, place));
    if (!found) return;
  }
  throw found;
}

async function spreadAt(bench: Bench, place: Trial): Promise<Failed | undefined> {
  const strengths = new Map<string, Strength[]>();
  const budget = openBudget(bench, SECONDS);
  for (const seed of SEEDS) {
    if (budget.isOver()) return undefined;
    const sample = await bench.prepare({ ...place, seed });
    const { width, height } = sample.grid;
    const layer = bench.paint(sample, { x: 0, y: 0, width, height });
    for (const channel of channelsOf(layer)) {
      if (!LOOKED_AT.includes(channel.name)) continue;
      strengths.set(channel.name, [...(strengths.get(channel.name) ?? []), { seed, layer, channel }]);
    }
  }
  for (const of of strengths.values()) {
    for (const look of LOOKS) {
      const sorted = [...of].sort((a, b) => look.of(a.channel) - look.of(b.channel));
      const [least, most] = [sorted[0], sorted[sorted.length - 1]];
      if (look.of(most.channel) > look.most * look.of(least.channel))
        return notOfAKind(place, look, least, most);
    }
  }
  return undefined;
}

function notOfAKind(place: Trial, look: Look, least: Strength, most: Strength): Failed {
  const [low, high] = [least, most].map(({ channel }) => look.of(channel));
  return new Failed(
    { ...place, seed: most.seed },
    {
      expected: 'textures of one kind from all seeds',
      received: `${look.name} of ${most.channel.name} of ${low.toPrecision(2)} from seed ${spokenSeed(least.seed)} and of ${high.toPrecision(2)} from seed ${spokenSeed(most.seed)}, ${(high / low).toFixed(1)} times as much`,
      remedy:
        'Let the seed choose where things are and which form each has; how strong, how dark, how large and how many they are is for parameters, or drawn for each thing by itself.',
      picture: sideBySide([showLayer(least.layer), showLayer(most.layer)], 'What the two seeds paint.'),
      beside: { ...place, seed: least.seed },
    },
  );
}
