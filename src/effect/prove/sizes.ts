import type { AnyEffect } from '../effect.ts';
import type { NumberParameter, Parameter } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Trial } from './trial.ts';

/** The parameters that are numbers in mm, by name: most are sizes of something. */
export function sizesOf(effect: AnyEffect): [string, NumberParameter][] {
  return numbersOf(effect).filter(([, { unit }]) => unit === 'mm');
}

/** All sizes at their greatest at once; the same trial where there are none. */
export function withLargest(effect: AnyEffect, base: Trial): Trial {
  return { ...base, parameters: Object.fromEntries(largest(effect)) };
}

/** Each size by itself at its greatest. */
export function withLargestAlone(effect: AnyEffect, base: Trial): Trial[] {
  return largest(effect).map(([name, most]) => ({ ...base, parameters: { [name]: most } }));
}

/** All sizes at their least, and all that is counted by length or area at its most. */
export function crowded(effect: AnyEffect): Trial['parameters'] {
  const values = numbersOf(effect).flatMap(([name, parameter]): [string, number][] => {
    const [least, most] = endsOf(parameter);
    if (parameter.unit === 'mm') return [[name, least]];
    return parameter.unit.startsWith('per ') ? [[name, most]] : [];
  });
  return Object.fromEntries(values);
}

function largest(effect: AnyEffect): [string, number][] {
  return sizesOf(effect).map(([name, parameter]) => [name, endsOf(parameter)[1]]);
}

function numbersOf({ parameters }: AnyEffect): [string, NumberParameter][] {
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]): [string, NumberParameter][] =>
    parameter.kind === 'number' ? [[name, parameter]] : [],
  );
}
