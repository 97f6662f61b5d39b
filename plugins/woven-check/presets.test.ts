import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { makeCheck, paintCheck } from '../testing/woven-check.ts';

const folder = new URL('../../presets/woven-check/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are six at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(6);
  });
  it.each(names)('%s weaves, with its colours in it, in the light it promises', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['woven-check', 'string']);
    const made = makeCheck(preset.parameters, 'drop:1/2', '160x160mm', 100);
    const { shade, tint } = paintCheck(made, 0, 0, 300, 300);
    const relief = preset.parameters.relief ?? 1;
    expect(Math.abs(meanOf(shade) - (1 - 0.1 * relief))).toBeLessThan(0.04);
    const shown = new Set<number>();
    for (let k = 0; k < tint.length; k += 4) shown.add(Math.round(tint[k] * 20));
    expect(shown.size).toBeGreaterThan(preset.parameters.yarns.length);
  });
});
