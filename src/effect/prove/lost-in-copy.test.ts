import { expect, it } from 'vitest';
import { lostInCopy } from './lost-in-copy.ts';

class Waves {
  readonly depth = 1;
  at() {
    return this.depth;
  }
}

it.each<[string, unknown, string | undefined]>([
  ['plain data', { a: [1, { b: new Float32Array(3) }], c: 'x', d: null, e: new Map([[1, 2]]) }, undefined],
  [
    'a property of an array of numbers',
    { rows: Object.assign(new Float32Array(3), { strength: 2 }) },
    'model.rows.strength',
  ],
  ['a property of an array', { rows: Object.assign([1, 2], { strength: 2 }) }, undefined],
  ['a class', { waves: [new Waves()] }, 'the methods of model.waves.0, which is a Waves'],
])('of %s', (_, model, lost) => {
  expect(lostInCopy(model, structuredClone(model))).toBe(lost);
});

it('does not walk in circles', () => {
  const model: { self?: unknown } = {};
  model.self = model;
  expect(lostInCopy(model, structuredClone(model))).toBeUndefined();
});
