import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { type Given, painted, prepared } from '../testing/salt-bloom.ts';
import salt from './index.ts';

const folder = new URL('../../presets/salt-bloom/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));
const presetOf = (name: string) => JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));

/** Share of the plane that is paler than three quarters, and how fast the load changes along a row, per mm. */
function lookOf(given: Given) {
  const loads = painted(
    prepared({ ...given, granulation: 0, unevenness: 0, drifts: 0, brushwork: 0 }, { width: 60, height: 50 }),
    0,
    0,
    300,
    250,
    0.2,
  );
  let [pale, change] = [0, 0];
  for (let k = 1; k < loads.length; k++) {
    if (loads[k] < 0.75) pale++;
    if (k % 300 !== 0) change += Math.abs(loads[k] - loads[k - 1]) / 0.2;
  }
  return { pale: pale / loads.length, crispness: change / Math.max(1, pale) };
}

describe('presets', () => {
  const looks = new Map(names.map((name) => [name, lookOf(presetOf(name).parameters)]));

  it('there are five at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(5);
  });

  it.each(names)('%s holds valid values and shows blooms on a wash', (name) => {
    const preset = presetOf(name);
    expect([preset.effect, typeof preset.summary]).toEqual(['salt-bloom', 'string']);
    expect(resolveValues('salt-bloom', salt.parameters, preset.parameters)).toMatchObject(preset.parameters);
    expect(looks.get(name)!.pale).toBeGreaterThan(0.01);
    expect(looks.get(name)!.pale).toBeLessThan(0.6);
  });

  it('range from sparse to crowded and from crisp to blurred', () => {
    const all = [...looks.values()];
    const ratio = (of: (look: (typeof all)[number]) => number) =>
      Math.max(...all.map(of)) / Math.min(...all.map(of));
    expect(ratio(({ pale }) => pale)).toBeGreaterThan(4);
    expect(ratio(({ crispness }) => crispness)).toBeGreaterThan(4);
  });

  it('are no two alike', () => {
    const apart = (x: number, y: number) => Math.abs(Math.log(x / y));
    for (const [a, one] of looks)
      for (const [b, other] of looks)
        if (a < b)
          expect(
            Math.max(apart(one.pale, other.pale), apart(one.crispness, other.crispness)),
          ).toBeGreaterThan(0.15);
  });
});
