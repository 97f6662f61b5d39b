import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { makeLift, wholeLoad } from '../testing/alcohol-lift.ts';
import { meanOf } from '../testing/measure.ts';
import lift from './index.ts';

const folder = new URL('../../presets/alcohol-lift/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are five at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(5);
  });
  it.each(names)('%s lifts paint and keeps it', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['alcohol-lift', 'string']);
    resolveValues('alcohol-lift', lift.parameters, preset.parameters);
    const load = wholeLoad(makeLift(preset.parameters, 'drop:1/2', '80x80mm', { dpi: 75 }));
    expect(Math.abs(meanOf(load) - 1)).toBeLessThan(0.02);
    expect(load.filter((value) => value < 0.75).length / load.length).toBeGreaterThan(0.005);
  });
});
