import type { NumberParameter, Parameter } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Claim } from './claim.ts';
import { channelClaims } from './colour-claims.ts';
import { entryClaims } from './list-claims.ts';
import { characterClaims, endClaims, numberClaims } from './text-claims.ts';
import { extremesOf, thinned } from './vary.ts';

/** What is longer than half a wall shows in none. mm. */
const LONGEST = 450;
/** Whole numbers that are fewer have no quarters. */
const FEWEST_STEPS = 8;
/** Whole numbers of a part that are tried. */
const MOST_STEPS = 9;

/** How much is claimed of each parameter. */
export interface Depth {
  /** Entries of a list. */
  readonly entries: number;
  /** Whether quarters of a number's range, too, or halves alone. */
  readonly quarters: boolean;
  /** Whether the inner quarters of counts, too, which often go with some values of another count alone. */
  readonly innerCounts: boolean;
}

/** What a parameter promises to change: by each half of a number's range, each option beside another, each switch. */
export function claimsOf(name: string, parameter: Parameter): Claim[] {
  switch (parameter.kind) {
    case 'number':
      return [...halvesOf(name, parameter), ...wholeRangeOf(name, parameter)];
    case 'choice':
      return parameter.options.flatMap((option, k) =>
        parameter.options
          .slice(0, k)
          .map((other) => ({ what: `${option} of ${name}, beside ${other},`, values: [other, option] })),
      );
    case 'switch':
      return [{ what: `switch ${name}`, values: [false, true] }];
    case 'picture':
      return [{ what: name, values: extremesOf(parameter) }];
    default:
      return [{ what: name, values: [...extremesOf(parameter), parameter.default] }];
  }
}

/** And by its parts: each quarter of a range, each channel of a colour, each entry of a list, each place of a text. */
export function finerClaimsOf(name: string, parameter: Parameter, depth: Depth): Claim[] {
  switch (parameter.kind) {
    case 'number':
      return quartersOf(name, parameter, depth);
    case 'colour':
      return channelClaims(name, parameter);
    case 'colours':
      return [...channelClaims(name, parameter), ...entryClaims(name, parameter, depth.entries)];
    case 'numbers':
      return entryClaims(name, parameter, depth.entries);
    case 'text':
      return [
        ...characterClaims(name, parameter, depth.entries),
        ...numberClaims(name, parameter),
        ...endClaims(name, parameter),
      ];
    default:
      return [];
  }
}

/**
 * That each tenth of a number's range changes something: what is clamped near an end, or goes by steps, does nothing in
 * some. Counts of less than twenty have none.
 */
export function tenthsOf(name: string, parameter: NumberParameter): Claim[] {
  const { min, max, whole } = parameter;
  if (whole && max - min < TENTHS * 2) return [];
  const tenths = Array.from({ length: TENTHS }, (_, k) => [k / TENTHS, (k + 1) / TENTHS] as const);
  return tenths
    .map(([from, to]) =>
      partOf(name, parameter, { which: tenthInWords(from, to), from, to }, [from, to, (from + to) / 2]),
    )
    .filter((claim) => claim.values.length > 1 && !isTooLong(parameter, claim));
}

const TENTHS = 10;

function tenthInWords(from: number, to: number): string {
  return from === 0 ? 'lowest tenth' : to === 1 ? 'highest tenth' : `tenth from ${Math.round(100 * from)} %`;
}

/** That from one end to the other something changes that can be seen: a wrong unit makes it a thousandth of that. */
function wholeRangeOf(name: string, parameter: NumberParameter): Claim[] {
  const { unit, whole, default: usual } = parameter;
  const [min, max] = endsOf(parameter);
  // Of a direction both ends are one.
  const between = [0.25, 0.5]
    .map((share) => min + share * (max - min))
    .filter((value) => !whole || value % 1 === 0);
  const claim: Claim = {
    what: `${name}, over its whole range from ${min} to ${max} ${unit}, by as much as can be seen,`,
    values: [...new Set([min, max, usual, ...between])],
    instead: 'mend its unit or what it is multiplied by',
    isSeen: true,
  };
  return isTooLong(parameter, claim) ? [] : [claim];
}

/** The ends of each half come first, because other checks have painted them, and then places between. */
function halvesOf(name: string, parameter: NumberParameter): Claim[] {
  const lower = partOf(name, parameter, { which: 'lower half', from: 0, to: 0.5 }, [0.5, 0.25, 0.4]);
  const upper = partOf(name, parameter, { which: 'upper half', from: 0.5, to: 1 }, [0.5, 0.75, 0.6]);
  return [lower, upper].filter((claim) => claim.values.length > 1 && !isTooLong(parameter, claim));
}

function quartersOf(name: string, parameter: NumberParameter, depth: Depth): Claim[] {
  const { min, max, whole } = parameter;
  if (!depth.quarters || (whole && max - min < FEWEST_STEPS)) return [];
  const lower = partOf(name, parameter, { which: 'lowest quarter', from: 0, to: 0.25 }, [0.25, 0.1]);
  const upper = partOf(name, parameter, { which: 'highest quarter', from: 0.75, to: 1 }, [0.75, 0.9]);
  const second = partOf(name, parameter, { which: 'second quarter', from: 0.25, to: 0.5 }, [0.25, 0.5, 0.4]);
  const third = partOf(name, parameter, { which: 'third quarter', from: 0.5, to: 0.75 }, [0.75, 0.5, 0.6]);
  const inner = whole && !depth.innerCounts ? [] : [second, third];
  const claims = [lower, ...inner, upper].map((claim) => (whole ? withSteps(claim) : claim));
  return claims.filter((claim) => !isTooLong(parameter, claim));
}

/** Whether a claim is all of what is longer than shows in any wall. */
function isTooLong({ unit }: NumberParameter, { values }: Claim): boolean {
  return unit === 'mm' && values.every((value) => Number(value) > LONGEST);
}

/** Of counts one may go with another number where the next to it does not: 5 with 8, but not 4 or 6. */
function withSteps(claim: Claim): Claim {
  const values = claim.values.map(Number);
  const [from, to] = [Math.min(...values), Math.max(...values)];
  const steps = Array.from({ length: to - from + 1 }, (_, step) => from + step);
  return { ...claim, values: [...new Set([...values, ...thinned(steps, MOST_STEPS)])] };
}

interface Part {
  readonly which: string;
  /** Shares of the range. */
  readonly from: number;
  readonly to: number;
}

/** A claim of a part of a range: its outer end first, then the default where it lies inside, then these shares. */
function partOf(name: string, parameter: NumberParameter, part: Part, shares: readonly number[]): Claim {
  const { min, max, whole, unit } = parameter;
  const at = (share: number) => {
    const value = min + (max - min) * share;
    return whole ? Math.round(value) : Number(value.toPrecision(12));
  };
  const [from, to] = [at(part.from), at(part.to)];
  const inside = [parameter.default].filter((value) => value >= from && value <= to);
  const outer = part.from === 0 ? [min] : part.to === 1 ? [max] : [];
  const left = part.from === 0 ? [to, max] : part.to === 1 ? [min, from] : undefined;
  return {
    what: `the ${part.which} of ${name}, ${from} to ${to} ${unit},`,
    values: [...new Set([...outer, ...inside, ...shares.map(at)])],
    instead: left
      ? `narrow the range to ${left.join(' to ')} ${unit}`
      : 'spread what it does over the whole range',
  };
}
