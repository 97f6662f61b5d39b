import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { makeWatered, paintWatered } from '../testing/watered-silk.ts';
import watered from './index.ts';

const folder = new URL('../../presets/watered-silk/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are four at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(4);
  });
  it.each(names)('%s is a watered silk that leaves the artwork readable', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['watered-silk', 'string']);
    resolveValues('watered-silk', watered.parameters, preset.parameters);
    const made = makeWatered(preset.parameters, 'drop:1/2', '50x50mm', 127);
    const { shade } = paintWatered(made, 0, 0, 250, 250);
    expect(Math.abs(meanOf(shade) - 0.9)).toBeLessThan(0.06);
  });
});
