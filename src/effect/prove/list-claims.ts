import type { ColoursParameter, NumbersParameter } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Claim } from './claim.ts';
import { oppositeOf } from './colour-claims.ts';
import { spreadNumbers, thinned } from './vary.ts';

/**
 * That the last entry of the longest list changes something, and so does each one before it.
 *
 * @param count How many entries to claim something of: the last, and others evenly from the first on.
 */
export function entryClaims(
  name: string,
  parameter: NumbersParameter | ColoursParameter,
  count: number,
): Claim[] {
  const { most } = parameter;
  const before = Array.from({ length: most - 1 }, (_, index) => index).reverse();
  const entries = [most - 1, ...(count > 2 ? thinned(before, count - 1) : before.slice(0, count - 1))];
  const told = entries.map((index) => {
    const others = most === 1 ? '' : `, in a list of ${most}`;
    return {
      what: `entry ${index + 1} of ${name}${others},`,
      values: parameter.kind === 'numbers' ? numbersAt(parameter, index) : coloursAt(parameter, index),
      instead: index === most - 1 ? 'allow fewer entries' : 'say that it must not be there',
      isOfEntry: true,
    };
  });
  return parameter.kind === 'numbers'
    ? [...told, ...spreadClaims(name, parameter), ...halfClaims(name, parameter)]
    : [...told, ...shortestClaims(name, parameter)];
}

/** Entries of a list whose numbers go over the whole range, of one digit and of two, in no order. */
function spreadClaims(name: string, parameter: NumbersParameter): Claim[] {
  const { least, most, default: usual, whole } = parameter;
  const [min, max] = endsOf(parameter);
  const list = spreadNumbers(parameter, Math.max(least, Math.min(most, Math.max(3, usual.length))));
  const step = whole ? Math.max(1, Math.round(MOVED * (max - min))) : MOVED * (max - min);
  return list.map((own, index) => {
    const others = [own - step, own + step]
      .map((value) => Number(value.toPrecision(6)))
      .filter((value) => value >= min && value <= max);
    return {
      what: `entry ${index + 1} of ${name}, ${own} in ${list.join(', ')},`,
      values: [list, ...others.map((value) => list.with(index, value))],
      instead: 'say that it must not be there; numbers are sorted as such by sort((a, b) => a - b) alone',
      isOfEntry: true,
    };
  });
}

/** Lists that lie in one half of the range as a whole; two numbers by turns, for some lists are of shares. */
function halfClaims(name: string, parameter: NumbersParameter): Claim[] {
  const { most, whole, default: usual } = parameter;
  if (most < 2) return [];
  const [min, max] = endsOf(parameter);
  const count = Math.max(2, Math.min(most, usual.length));
  const halves = [
    { which: 'lower', ends: [min, min + (max - min) / 4] },
    { which: 'upper', ends: [max, max - (max - min) / 4] },
  ];
  return halves
    .map(({ which, ends }) => {
      const own = ends.map((value) => (whole ? Math.round(value) : Number(value.toPrecision(6))));
      const byTurns = (first: number) =>
        Array.from({ length: count }, (_, index) => own[(index + first) % 2]);
      return {
        what: `${name} where all of it lies in the ${which} half of its range`,
        values: [byTurns(0), byTurns(1)],
        instead: 'narrow the range',
        isOfEntry: true,
      };
    })
    .filter(({ values: [one, other] }) => one[0] !== other[0]);
}

/** As few colours as may be: what is counted from the first to the last goes over none. */
function shortestClaims(name: string, parameter: ColoursParameter): Claim[] {
  const least = Math.max(1, parameter.least);
  const list = longest(parameter.default, least);
  const count = least === 1 ? 'a single colour' : `as few as ${least} colours`;
  return [
    {
      what: `${count} of ${name}`,
      values: [list, list.map(oppositeOf), list.map(() => '#ffffff')],
      instead: 'ask for more colours',
      isOfEntry: true,
    },
  ];
}

/** The share of the range that such an entry is moved by. */
const MOVED = 0.08;

/** The longest list, of what the default has over and over, and the same with this entry at either end of its range. */
function numbersAt(parameter: NumbersParameter, index: number): readonly (readonly number[])[] {
  const [min, max] = endsOf(parameter);
  const list = longest(parameter.default, parameter.most);
  const ends = max - list[index] > list[index] - min ? [max, min] : [min, max];
  const others = ends.filter((value) => value !== list[index]);
  return [list, ...others.map((value) => list.with(index, value))];
}

/** The same of colours: the opposite first, and then some that are likelier to be chosen by what is nearest. */
function coloursAt(parameter: ColoursParameter, index: number): readonly (readonly string[])[] {
  const list = longest(parameter.default, parameter.most);
  const others = [oppositeOf(list[index]), '#ffffff', '#000000', '#808080'];
  return [list, ...others.map((value) => list.with(index, value))];
}

function longest<T>(items: readonly T[], most: number): readonly T[] {
  return Array.from({ length: most }, (_, index) => items[index % items.length]);
}
