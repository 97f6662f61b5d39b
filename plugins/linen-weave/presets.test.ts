import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { makeLinen, paintLinen } from '../testing/linen-weave.ts';
import { meanOf } from '../testing/measure.ts';
import linen from './index.ts';

const folder = new URL('../../presets/linen-weave/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are six at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(6);
  });
  it.each(names)('%s is a linen that weaves, in the light it promises', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['linen-weave', 'string']);
    const values = resolveValues('linen-weave', linen.parameters, preset.parameters) as { relief: number };
    const made = makeLinen(preset.parameters, 'drop:1/2', '50x50mm', 254);
    const { shade } = paintLinen(made, 0, 0, 250, 250);
    expect(Math.abs(meanOf(shade) - (1 - 0.12 * values.relief))).toBeLessThan(0.04);
  });
});
