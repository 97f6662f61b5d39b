import type { AnyEffect } from '../effect.ts';
import type { NumberParameter, Parameter, ParameterValue, Unit } from '../parameter.ts';
import { endsOf } from '../value.ts';
import type { Trial } from './trial.ts';
import { extremesOf } from './vary.ts';

/** Rows of values that a whole proof spends on pairs: every pair is worth as much, so the fullest rows go first. */
const MOST_ROWS = 40;
/** The end of a range, and what lies just before it. */
const HUNDREDTH = 0.01;

type Values = Readonly<Record<string, ParameterValue>>;

/** Where formulas break that hold on either side: at nothing, one and its opposite, and angles a right one apart. */
const SPECIAL = [0, 1, -1];
const SPECIAL_DEGREES = [0, 45, 90, 180, 270];
/** Trials with all numbers inside their ranges at once, as many as the longest list of such values has. */
const MOST_INSIDE = 6;

type Range = Pick<NumberParameter, 'min' | 'max' | 'whole'> & { readonly unit?: Unit };

/**
 * The exact middle of a range, numbers in it at which formulas break, and what lies a hundredth before either end:
 * whole where it must be.
 */
export function insideValues(range: Range): number[] {
  const [min, max] = endsOf(range);
  const at = (share: number) => {
    const value = min + (max - min) * share;
    return range.whole ? Math.round(value) : Number(value.toPrecision(12));
  };
  const near = range.whole ? [min + 1, max - 1] : [at(HUNDREDTH), at(1 - HUNDREDTH)];
  const special = range.unit === 'deg' ? SPECIAL_DEGREES : SPECIAL;
  return [...new Set([at(0.5), ...near, ...special])].filter((value) => value > min && value < max);
}

/** All numbers inside their ranges at once: each parameter comes by each of these values in as many trials. */
export function insides({ parameters }: AnyEffect, base: Trial): Trial[] {
  const inside = Object.entries<Parameter>(parameters).flatMap(([name, parameter]) =>
    parameter.kind === 'number' ? [[name, insideValues(parameter)] as const] : [],
  );
  const lists = inside.filter(([, values]) => values.length > 0);
  if (lists.length === 0) return [];
  const rows = Math.min(MOST_INSIDE, Math.max(3, ...lists.map(([, values]) => values.length)));
  return Array.from({ length: rows }, (_, row) => ({
    ...base,
    parameters: Object.fromEntries(
      lists.map(([name, values], column) => [name, values[(row + column) % values.length]]),
    ),
  }));
}

/** Each parameter by itself at each of these values. */
export function insidesAlone({ parameters }: AnyEffect, base: Trial): Trial[] {
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]) =>
    parameter.kind === 'number'
      ? insideValues(parameter).map((value) => ({ ...base, parameters: { [name]: value } }))
      : [],
  );
}

const PURE = ['#ff0000', '#0000ff', '#00ff00', '#ffff00'];

/** All colours at once of two that are as pure as can be, by turns: what mixes them may leave the range of a screen. */
export function pureColours({ parameters }: AnyEffect, base: Trial): Trial[] {
  const twos = PURE.flatMap((one) => PURE.filter((other) => other !== one).map((other) => [one, other]));
  return twos.flatMap((two) => {
    let turn = 0;
    const values = Object.entries<Parameter>(parameters).flatMap(
      ([name, parameter]): [string, ParameterValue][] => {
        if (parameter.kind === 'colour') return [[name, two[turn++ % 2]]];
        if (parameter.kind !== 'colours') return [];
        const count = Math.max(parameter.least, Math.min(parameter.most, 2));
        return [[name, Array.from({ length: count }, (_, k) => two[k % 2])]];
      },
    );
    return values.length > 0 ? [{ ...base, parameters: Object.fromEntries(values) }] : [];
  });
}

/** Each parameter by itself at 0 where that lies inside its range: what divides by it or takes its root fails there. */
export function zeroesAlone({ parameters }: AnyEffect, base: Trial): Trial[] {
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]) =>
    parameter.kind === 'number' && parameter.default !== 0 && insideValues(parameter).includes(0)
      ? [{ ...base, parameters: { [name]: 0 } }]
      : [],
  );
}

/**
 * Every two parameters at every two of their values (the ends of a range, its middle, just before its ends;
 * all options), all parameters at once: each row takes of every parameter the value that makes most pairs
 * which no row has had yet.
 */
export function covering({ parameters }: AnyEffect, base: Trial): Trial[] {
  const columns = Object.entries<Parameter>(parameters).map(([name, parameter]) => ({
    name,
    values: valuesOf(parameter),
  }));
  const left = new Set<string>();
  for (const [at, a] of columns.entries()) {
    for (const b of columns.slice(at + 1)) {
      for (const first of a.values)
        for (const second of b.values) left.add(pairOf(a.name, first, b.name, second));
    }
  }
  const rows: Trial[] = [];
  while (left.size > 0 && rows.length < MOST_ROWS) {
    const values = fullestRow(columns, left);
    for (const pair of pairsIn(values)) left.delete(pair);
    rows.push({ ...base, parameters: values });
  }
  return rows;
}

interface Column {
  readonly name: string;
  readonly values: readonly ParameterValue[];
}

/** Begins with a pair that is still left, so that every row makes at least one. */
function fullestRow(columns: readonly Column[], left: ReadonlySet<string>): Values {
  const [a, first, b, second] = JSON.parse(left.values().next().value!);
  const row: Record<string, ParameterValue> = { [a]: first, [b]: second };
  for (const { name, values } of columns) {
    if (Object.hasOwn(row, name)) continue;
    const gains = values.map(
      (value) => pairsIn({ ...row, [name]: value }).filter((pair) => left.has(pair)).length,
    );
    row[name] = values[gains.indexOf(Math.max(...gains))];
  }
  return Object.fromEntries(columns.map(({ name }) => [name, row[name]]));
}

/** Every pair of a set of values, each by a name of its own. */
export function pairsIn(values: Values): string[] {
  const entries = Object.entries(values).sort(([a], [b]) => (a < b ? -1 : 1));
  return entries.flatMap(([a, first], at) =>
    entries.slice(at + 1).map(([b, second]) => pairOf(a, first, b, second)),
  );
}

function pairOf(a: string, first: ParameterValue, b: string, second: ParameterValue): string {
  return JSON.stringify(a < b ? [a, first, b, second] : [b, second, a, first]);
}

function valuesOf(parameter: Parameter): readonly ParameterValue[] {
  const extremes = extremesOf(parameter);
  return parameter.kind === 'number' ? [...extremes, ...insideValues(parameter)] : extremes;
}
