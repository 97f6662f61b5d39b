import type { AnyEffect } from '../effect.ts';
import type { PlaneName } from '../layer.ts';
import type { NumberParameter, Parameter, ParameterValue } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Trial } from './trial.ts';

/** Places over the range of a number at which planesFor is asked. */
const PLACES = 33;
/** Steps of a range: between two places the change is looked for to one of these. */
const STEPS = 1000;
/** Whole numbers that are fewer are kinds rather than amounts. */
const FEWEST_WHOLE = 9;

type Values = Readonly<Record<string, ParameterValue>>;
type Ask = (value: number) => readonly PlaneName[];

/**
 * The values of each number at which planesFor leaves a plane out that it names one step further on, the others at
 * their defaults, and again beside each option and each switch.
 */
export function leavingTrials({ parameters, planes, planesFor }: AnyEffect, base: Trial): Trial[] {
  if (!planesFor) return [];
  const entries = Object.entries<Parameter>(parameters);
  const defaults = Object.fromEntries(entries.map(([name, parameter]) => [name, parameter.default]));
  return [{}, ...wordsOf(entries)].flatMap((beside: Values) =>
    entries.flatMap(([name, parameter]) => {
      if (!isAmount(parameter)) return [];
      const ask: Ask = (value) => planesFor({ ...defaults, ...beside, [name]: value } as never);
      const leaving = planes.flatMap((plane) => leavingValues(parameter, plane, ask));
      return [...new Set(leaving)].map((value) => ({ ...base, parameters: { ...beside, [name]: value } }));
    }),
  );
}

/**
 * Lists whose entries are all at the least but one, and all at the greatest but one: planesFor may ask the first of
 * them alone, or every one but the last.
 */
export function unevenLists({ parameters, planesFor }: AnyEffect, base: Trial): Trial[] {
  if (!planesFor) return [];
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]) => {
    if (parameter.kind !== 'numbers' || parameter.most < 2) return [];
    const [min, max] = endsOf(parameter);
    const count = Math.max(2, parameter.least, Math.min(parameter.most, parameter.default.length));
    const lengths = [...new Set([count, parameter.most])];
    const even = min < 0 && max > 0 ? lengths.map((length) => evenedOut(length, Math.min(-min, max))) : [];
    const evened = even.map((list): Trial => ({ ...base, parameters: { [name]: list } }));
    return evened.concat(
      lengths.flatMap((length) =>
        placesOf(length).flatMap((at) =>
          [
            [min, max],
            [max, min],
          ].map(([most, one]): Trial => {
            const list = Array.from({ length }, (_, index) => (index === at ? one : most));
            return { ...base, parameters: { [name]: list } };
          }),
        ),
      ),
    );
  });
}

/** By turns above and below 0, so that their sum is none; where one is over, it is 0. */
function evenedOut(length: number, most: number): number[] {
  return Array.from({ length }, (_, k) => (k === length - 1 && length % 2 ? 0 : k % 2 ? -most : most));
}

/** The last of a list, its middle and its first. */
function placesOf(length: number): number[] {
  return [...new Set([length - 1, length >> 1, 0])];
}

/** True for a number of which more or less can be had. */
export function isAmount(parameter: Parameter): parameter is NumberParameter {
  if (parameter.kind !== 'number') return false;
  const [min, max] = endsOf(parameter);
  return !parameter.whole || max - min + 1 >= FEWEST_WHOLE;
}

/** How far apart two neighbouring values are of those that are asked about. */
export function stepOf(parameter: NumberParameter): number {
  const [min, max] = endsOf(parameter);
  return parameter.whole ? 1 : (max - min) / STEPS;
}

/** Each option and each position of a switch that is not the default. */
function wordsOf(entries: readonly (readonly [string, Parameter])[]): Values[] {
  return entries.flatMap(([name, parameter]): Values[] => {
    if (parameter.kind === 'switch') return [{ [name]: !parameter.default }];
    if (parameter.kind !== 'choice') return [];
    return parameter.options
      .filter((option) => option !== parameter.default)
      .map((option) => ({ [name]: option }));
  });
}

function leavingValues(parameter: NumberParameter, plane: PlaneName, ask: Ask): number[] {
  const [min, max] = endsOf(parameter);
  const steps = parameter.whole ? max - min : STEPS;
  const valueAt = (step: number) => Number((min + ((max - min) * step) / steps).toPrecision(12));
  const isNamed = (step: number) => ask(valueAt(step)).includes(plane);
  const places = Array.from({ length: PLACES }, (_, k) => Math.round((k * steps) / (PLACES - 1)));
  return places.slice(1).flatMap((upper, k) => {
    const lower = places[k];
    if (isNamed(lower) === isNamed(upper)) return [];
    return [
      valueAt(isNamed(lower) ? lastLeaving(upper, lower, isNamed) : lastLeaving(lower, upper, isNamed)),
    ];
  });
}

/** The last step on the way from one that leaves the plane out to one that names it. */
function lastLeaving(out: number, named: number, isNamed: (step: number) => boolean): number {
  while (Math.abs(named - out) > 1) {
    const middle = Math.floor((out + named) / 2);
    if (isNamed(middle)) named = middle;
    else out = middle;
  }
  return out;
}
