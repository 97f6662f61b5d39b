import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { meanOf } from '../testing/measure.ts';
import { litPaper, makePaper } from '../testing/paper-tooth.ts';
import paper from './index.ts';

const folder = new URL('../../presets/paper-tooth/', import.meta.url);
const names = readdirSync(folder).map((file) => file.replace(/\.json$/, ''));

describe('presets', () => {
  it('there are four at least', () => {
    expect(names.length).toBeGreaterThanOrEqual(4);
  });
  it.each(names)('%s is a paper that leaves the artwork readable', (name) => {
    const preset = JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
    expect([preset.effect, typeof preset.summary]).toEqual(['paper-tooth', 'string']);
    resolveValues('paper-tooth', paper.parameters, preset.parameters);
    const made = makePaper(preset.parameters, 'drop:1/2', '50x50mm', 127);
    const shade = litPaper(made, 0, 0, 250, 250);
    expect(Math.abs(meanOf(shade) - 0.97)).toBeLessThan(0.025);
  });
});
