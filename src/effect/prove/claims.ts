import type { Parameter, ParameterValue } from '../parameter.ts';
import { extremesOf } from './vary.ts';

/** What is longer than half a wall shows in none. mm. */
const LONGEST = 450;

/** Values of one parameter that must not all give the same picture. */
export interface Claim {
  /** In words, e.g. `the upper half of stripe, 20 to 40 mm,`. */
  readonly what: string;
  readonly values: readonly ParameterValue[];
}

/** What a parameter promises to change: by each half of a number's range, each option beside another, each switch. */
export function claimsOf(name: string, parameter: Parameter): Claim[] {
  switch (parameter.kind) {
    case 'number':
      return halvesOf(name, parameter);
    case 'choice':
      return parameter.options.flatMap((option, k) =>
        parameter.options
          .slice(0, k)
          .map((other) => ({ what: `${option} of ${name}, beside ${other},`, values: [other, option] })),
      );
    case 'switch':
      return [{ what: `switch ${name}`, values: [false, true] }];
    default:
      return [{ what: name, values: [...extremesOf(parameter), parameter.default] }];
  }
}

/** The ends of each half come first, because other checks have painted them, and then places between. */
function halvesOf(name: string, parameter: Extract<Parameter, { kind: 'number' }>): Claim[] {
  const { min, max, whole, unit } = parameter;
  const at = (share: number) => {
    const value = min + (max - min) * share;
    return whole ? Math.round(value) : Number(value.toPrecision(12));
  };
  const middle = at(0.5);
  const half = (which: string, from: number, to: number, shares: readonly number[]): Claim => {
    const inside = [parameter.default].filter((value) => value >= from && value <= to);
    const end = from === min ? min : max;
    return {
      what: `the ${which} half of ${name}, ${from} to ${to} ${unit},`,
      values: [...new Set([end, ...inside, ...shares.map(at)])],
    };
  };
  const lower = half('lower', min, middle, [0.5, 0.25, 0.4]);
  const upper = half('upper', middle, max, [0.5, 0.75, 0.6]);
  const isTooLong = unit === 'mm' && middle > LONGEST;
  return (isTooLong ? [lower] : [lower, upper]).filter(({ values }) => values.length > 1);
}
