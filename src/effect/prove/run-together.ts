import type { AnyEffect } from '../effect.ts';
import type { NumberParameter, Parameter } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Change } from './near-by.ts';
import type { Trial } from './trial.ts';

type Range = Pick<NumberParameter, 'min' | 'max' | 'whole'>;
type Two = readonly [number, number];

/** A setting, and another that reads the same where its numbers are written one after the other with nothing between. */
export interface Alike {
  readonly here: Trial;
  readonly before: Change;
}

/** Numbers of a range that are tried, from its least on. */
const MOST = 60;

/**
 * Settings that a key of joined numbers takes for one: 1 and 12 are written as 11 and 2 are. Of each list of numbers
 * its first two, and of every two numbers that are declared one after the other.
 */
export function runTogether({ parameters }: AnyEffect, base: Trial): Alike[] {
  const all = Object.entries<Parameter>(parameters);
  const lists = all.flatMap(([name, parameter]) => {
    if (parameter.kind !== 'numbers' || parameter.most < 2) return [];
    const twins = writtenAlike(parameter, parameter);
    if (!twins) return [];
    const [list, other] = twins.map((two) => longEnough(two, parameter.least));
    return [alike(base, { [name]: list }, { [name]: other }, name)];
  });
  const pairs = all.slice(1).flatMap(([second, after], at) => {
    const [first, before] = all[at];
    if (before.kind !== 'number' || after.kind !== 'number') return [];
    const twins = writtenAlike(before, after);
    if (!twins) return [];
    const [here, other] = twins.map(([a, b]) => ({ [first]: a, [second]: b }));
    return [alike(base, here, other, `${first} and ${second}`)];
  });
  return [...lists, ...pairs];
}

/** Layouts of which a key may hold the kind or one of the two numbers alone. */
const LIKE_LAYOUTS = [
  ['drop:1/3', 'drop:2/3', 'how many parts of the shear a repeat moves by'],
  ['brick:1/3', 'brick:2/3', 'how many parts of the shear a repeat moves by'],
  ['drop:1/3', 'brick:1/3', 'whether the layout is a drop or a brick'],
] as const;

/** mm of a box in which a pixel more or less is another density of the same whole dpi. */
const WIDE = { width: 640, height: 6 };

/** Settings of another layout, or of hardly another density, that a key takes for one. */
export function likePlaces(base: Trial): Alike[] {
  const wide = { ...base, ...WIDE };
  const dense = { ...wide, pixelsPerMm: base.pixelsPerMm + 1 / WIDE.width };
  const words = 'a density that differs by a tenth of a dot per inch or less';
  const density = { words, of: 'the density of the band to its last digit', trial: dense };
  return [{ here: wide, before: density }, ...likeLayouts(base)];
}

function likeLayouts(base: Trial): Alike[] {
  return LIKE_LAYOUTS.map(([layout, other, of]) => ({
    here: { ...base, layout },
    before: { words: `layout ${other}`, of, trial: { ...base, layout: other } },
  }));
}

function alike(base: Trial, here: Trial['parameters'], other: Trial['parameters'], of: string): Alike {
  const words = Object.entries(other).map(([name, value]) => `${name}=${value}`);
  return {
    here: { ...base, parameters: { ...base.parameters, ...here } },
    before: {
      words: words.join(' and '),
      of: `where one number of ${of} ends and the next begins`,
      trial: { ...base, parameters: { ...base.parameters, ...other } },
    },
  };
}

function longEnough(two: Two, least: number): number[] {
  return [...two, ...Array.from({ length: Math.max(0, least - 2) }, () => two[1])];
}

function writtenAlike(first: Range, second: Range): readonly [Two, Two] | undefined {
  const seen = new Map<string, Two>();
  for (const a of someOf(first)) {
    for (const b of someOf(second)) {
      const twin = seen.get(`${a}${b}`);
      if (twin) return [twin, [a, b]];
      seen.set(`${a}${b}`, [a, b]);
    }
  }
  return undefined;
}

/** Whole numbers, and tenths where the range is small. */
function someOf(range: Range): number[] {
  const [min, max] = endsOf(range);
  const step = range.whole || max - min > 3 ? 1 : 0.1;
  const first = Math.ceil(Math.max(0, min) / step);
  const last = Math.min(Math.floor(max / step), first + MOST);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, k) =>
    Number(((first + k) * step).toFixed(1)),
  );
}
