import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AnyEffect, defineEffect } from '../effect.ts';
import { numbers, type Parameter, palette, text } from '../parameter.ts';
import { isValid } from '../value.ts';
import { parameterValue } from './random.ts';
import { describeTrial, HOME } from './trial.ts';
import { pairs, variants } from './vary.ts';

const parameters = {
  stripes: numbers({
    ...{ unit: 'mm', min: 1, max: 40, least: 1, most: 40, default: [12, 3], help: 'Widths.' },
  }),
  ends: numbers({
    ...{ unit: 'count', min: 1.5, max: 9, whole: true, least: 2, most: 2, default: [2, 2], help: 'Ends.' },
  }),
  yarns: palette({ least: 2, most: 12, default: ['#ffffff', '#1f3a5f'], help: 'Colours.' }),
  order: text({
    ...{ pattern: '[A-L][1-9][0-9]{0,2}( [A-L][1-9][0-9]{0,2})*', longest: 40, default: 'A24 B4' },
    ...{ say: 'a thread order', help: 'The order.' },
  }),
  // Nearly all that its pattern makes is too long.
  word: text({ pattern: '[a-z]{3,90}', longest: 3, default: 'abc', say: 'a word', help: 'A word.' }),
};

const sample: AnyEffect = defineEffect({
  ...{ apiVersion: 2, name: 'sample', version: '1.0.0', summary: 'A sample.', parameters },
  planes: ['shade'],
  prepare: () => ({}),
  paint() {},
});

describe('lists and texts in the kit', () => {
  it.each(Object.entries<Parameter>(parameters))('%s: any value is a value', (_name, parameter) => {
    fc.assert(
      fc.property(parameterValue(parameter), (value) => isValid(parameter, value)),
      { seed: 1, numRuns: 300 },
    );
  });
  it('any list has the fewest, the most and doubled items among its values', () => {
    const lists = fc.sample(parameterValue(parameters.yarns), { seed: 1, numRuns: 200 }) as string[][];
    const lengths = lists.map(({ length }) => length);
    expect([Math.min(...lengths), Math.max(...lengths)]).toEqual([2, 12]);
    expect(lists.some((list) => list.length > 2 && new Set(list).size === 1)).toBe(true);
    expect(lists.some((list) => new Set(list).size === 12)).toBe(true);
  });
  it('extremes are values, the fewest and the most among them', () => {
    const trials = [...variants(sample), ...pairs(sample)];
    for (const trial of trials)
      for (const [name, value] of Object.entries(trial.parameters))
        expect(isValid((parameters as Record<string, Parameter>)[name], value), `${name} ${value}`).toBe(
          true,
        );
    const lengthsOf = (name: string) =>
      new Set(trials.flatMap((trial) => (trial.parameters[name] as string[] | undefined)?.length ?? []));
    expect(lengthsOf('yarns')).toEqual(new Set([2, 12]));
    expect(lengthsOf('stripes')).toEqual(new Set([1, 40]));
    expect(Math.max(...lengthsOf('order'))).toBeGreaterThan(20);
    expect(Math.min(...lengthsOf('order'))).toBe(2);
  });
  it('a default that is itself an extreme is not tried twice', () => {
    const ends = { ...parameters.ends, default: [9, 9] };
    const all = variants({ ...sample, parameters: { ends } });
    const [home, ...others] = all.map((trial) => trial.parameters.ends);
    expect(home).toBeUndefined();
    expect(others).not.toContainEqual([9, 9]);
  });
  it('a counterexample comes down to the fewest items', () => {
    const property = fc.property(
      parameterValue(parameters.stripes),
      (list) => !(list as number[]).includes(40),
    );
    const { counterexample } = fc.check(property, { seed: 1, numRuns: 300 });
    expect(counterexample).toEqual([[40]]);
  });
  it('are written in messages as one would set them', () => {
    const given = { stripes: [12, 3], yarns: ['#aa0000', '#00bb00'], order: 'A24 B4' };
    expect(describeTrial({ ...HOME, parameters: given })).toContain(
      'stripes=12,3, yarns=#aa0000,#00bb00, order="A24 B4"; seed',
    );
  });
});
