import type { AnyEffect } from '../effect.ts';
import type { NumberParameter, Parameter, ParameterValue } from '../parameter.ts';
import { endsOf, isSameValue, spokenValue } from '../value.ts';
import { exchanged } from './text-claims.ts';
import type { Trial } from './trial.ts';

/** One thing that a memory may have forgotten to look at, in words. */
export interface Change {
  readonly words: string;
  /** What it did not look at. */
  readonly of: string;
  readonly trial: Trial;
}

/** Shares of a range by which a number is moved. */
const SHARES = [0.001, 0.01];
/** Entries of a list that are moved. */
const MOST_ENTRIES = 3;
const DIGIT = /[0-9]/;

/**
 * Places hardly beside this one, that a memory takes for the same where it rounds, cuts off or sums up what it looks
 * at: the size of the box, its sides exchanged, the density, the seed, another offset of the layout.
 */
export function nearPlaces(here: Trial): Change[] {
  const { width, height, seed, pixelsPerMm } = here;
  const near = (words: string, of: string, change: Partial<Trial>): Change => ({
    words,
    of,
    trial: { ...here, ...change },
  });
  return [
    near('a box three hundredths of a mm larger', 'the size of the box to its last digit', {
      width: width + 0.03,
      height: height + 0.03,
    }),
    near('a box a third of a mm smaller', 'the size of the box to its last digit', {
      width: width - 0.34,
      height: height - 0.34,
    }),
    near('a box of the same width', 'the height of the box', { height: height + 5.5 }),
    near('a box of the same height', 'the width of the box', { width: width + 7.5 }),
    near('a box of the same shape', 'the size of the box', { width: 2 * width, height: 2 * height }),
    near('a box with its sides exchanged', 'width and height each', { width: height, height: width }),
    near('a slightly finer density', 'the density of the band to its last digit', {
      pixelsPerMm: pixelsPerMm + 1 / width,
    }),
    near('a seed of the same letters', 'each letter of the seed', { seed: [...seed].reverse().join('') }),
    near('a seed with the same beginning', 'each letter of the seed', { seed: `${seed.slice(0, -1)}~` }),
    near('another offset of the layout', 'the offset of the layout', {
      layout: here.layout.replace(/1\/2$/, '1/3'),
    }),
  ];
}

/**
 * Each parameter moved a little, by itself: by a tenth of a per cent and by one per cent of its range, both ways, and
 * by a whole step; entries of a list one at a time and two exchanged; a colour by one step of 256; a digit of a text.
 *
 * @returns By parameter, and within by size: what is found again by a rounded value is so from one side at least.
 */
export function nearValues({ parameters }: AnyEffect, here: Trial): Change[][] {
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]) => {
    const own = here.parameters[name] ?? parameter.default;
    return besides(parameter, own).flatMap((values): Change[][] => {
      const others = values.filter((value) => !isSameValue(value, own));
      if (others.length === 0) return [];
      return [
        others.map((value) => ({
          words: `${name}=${spokenValue(value)}`,
          of: `all of ${name}, to its last digit`,
          trial: { ...here, parameters: { ...here.parameters, [name]: value } },
        })),
      ];
    });
  });
}

/** All parameters moved by their least steps at once, to one side and then to the other: no two values stay as they are. */
export function allNear({ parameters }: AnyEffect, here: Trial): Change[] {
  return [0, 1].map((side) => {
    const moved = Object.entries<Parameter>(parameters).flatMap(([name, parameter]) => {
      const own = here.parameters[name] ?? parameter.default;
      const [values = []] = besides(parameter, own);
      return values.length > 0 ? [[name, values[side % values.length]] as const] : [];
    });
    return {
      words: 'a setting with all parameters a little moved',
      of: 'all of the parameters, to their last digits',
      trial: { ...here, parameters: { ...here.parameters, ...Object.fromEntries(moved) } },
    };
  });
}

/** Values a little beside this one, by sizes of the step. */
function besides(parameter: Parameter, own: ParameterValue): ParameterValue[][] {
  switch (parameter.kind) {
    case 'number':
      return stepsOf(parameter).map((step, k) => besideNumber(parameter, Number(own), k % 2 ? -step : step));
    case 'colour':
      return [[nextColour(String(own))]];
    case 'numbers': {
      const [step] = stepsOf(parameter);
      const moved = (value: number) => besideNumber(parameter, value, step)[0] ?? value;
      return listsBeside(own as readonly number[], moved);
    }
    case 'colours':
      return listsBeside(own as readonly string[], nextColour);
    case 'text':
      return [lastDigits(String(own)).flatMap((at) => exchanged(parameter, String(own), at))];
    default:
      return [];
  }
}

function stepsOf(range: Pick<NumberParameter, 'min' | 'max' | 'whole'>): number[] {
  const [min, max] = endsOf(range);
  if (range.whole) return [1];
  return [...SHARES.map((share) => (max - min) * share), ...(max - min > 2 ? [1] : [])];
}

/** On the far side first: of two that share a memory's one place the last is kept, and of a table the first. */
function besideNumber(
  range: Pick<NumberParameter, 'min' | 'max' | 'whole'>,
  own: number,
  step: number,
): number[] {
  const [min, max] = endsOf(range);
  return [own + step, own - step]
    .map((value) => Number(value.toPrecision(12)))
    .filter((value) => value >= min && value <= max);
}

function listsBeside<T>(list: readonly T[], moved: (item: T) => T): T[][][] {
  const places = [...new Set([list.length - 1, list.length >> 1, 0])].slice(0, MOST_ENTRIES);
  const alone = places.map((at) => [list.with(at, moved(list[at]))]);
  const turned = list.length > 1 ? [[list.toReversed() as T[]]] : [];
  return [...alone, ...turned];
}

/** One step of 256 away in blue. */
function nextColour(hex: string): string {
  const blue = Number.parseInt(hex.slice(5, 7), 16);
  return hex.slice(0, 5) + (blue === 255 ? 254 : blue + 1).toString(16).padStart(2, '0');
}

function lastDigits(text: string): number[] {
  const found = [...text].findLastIndex((character) => DIGIT.test(character));
  const last = found >= 0 ? found : [...text].length - 1;
  return last >= 0 ? [last] : [];
}
