import { describe, expect, it } from 'vitest';
import { noteUnknown, refuseMisspelt } from './misspelt.ts';

const values = Object.freeze({ stripe: 9, pucker: 0.35 });

function readings(read: (given: Record<string, unknown>) => unknown): { unknown: string[]; model: unknown } {
  const unknown: string[] = [];
  const model = read(noteUnknown(values, unknown) as Record<string, unknown>);
  return { unknown, model };
}

describe('a parameter that is read by a name that it does not have', () => {
  it('is noted, and nothing else is', () => {
    expect(readings(({ stripe }) => stripe)).toEqual({ unknown: [], model: 9 });
    expect(readings((given) => given.strip)).toEqual({ unknown: ['strip'], model: undefined });
    expect(readings(({ strip, pukcer }) => [strip, pukcer]).unknown).toEqual(['strip', 'pukcer']);
    // What the language and printing ask of any object.
    expect(readings((given) => `${given}${String(given.hasOwnProperty)}`).unknown).toEqual([]);
  });

  it('leaves the values plain data', () => {
    const given = noteUnknown(values, []);
    expect({ ...given }).toEqual(values);
    expect(structuredClone(given)).toEqual(values);
    expect(Object.keys(given)).toEqual(['stripe', 'pucker']);
    expect(Object.isFrozen(given)).toBe(true);
    expect('strip' in given).toBe(false);
  });

  it.each([
    ['a number that is none', { perMm: Number.NaN }],
    ['nothing', { perMm: undefined }],
    ['a typed array of none', { table: Float32Array.of(1, Number.NaN) }],
    ['none further in', { rows: [{ at: 1 }, { at: 0 / 0 }] }],
  ])('is named with the nearest where the model holds %s', (_, model) => {
    expect(() => refuseMisspelt(['strip'], values, model)).toThrow(
      'it reads parameters.strip, which is not declared, and its model holds what is no number. Did you mean "stripe"?',
    );
  });

  it('is let pass where it did no harm', () => {
    expect(() =>
      refuseMisspelt(['strip'], values, { perMm: 3, name: 'x', none: null, wall: Infinity }),
    ).not.toThrow();
    expect(() => refuseMisspelt([], values, { perMm: Number.NaN })).not.toThrow();
    const round: Record<string, unknown> = {};
    round.self = round;
    expect(() => refuseMisspelt(['strip'], values, round)).not.toThrow();
  });
});
