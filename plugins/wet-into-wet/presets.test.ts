import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';
import wet from './index.ts';

const folder = new URL('../../presets/wet-into-wet/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are five at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(5);
  });
  it.each(names)('%s is a wash that keeps its paint', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['wet-into-wet', 'string']);
    resolveValues('wet-into-wet', wet.parameters, preset.parameters);
    const made = makeWet(preset.parameters, 'drop:1/2', '40x40mm', { dpi: 127, quality: 'sketch' });
    const { load } = paintWet(made, 0, 0, 200, 200);
    expect(Math.abs(meanOf(load) - 1)).toBeLessThan(0.02);
    expect(Math.sqrt(meanOf(load.map((value) => (value - 1) ** 2)))).toBeGreaterThan(0.08);
  });
});
