import { readdirSync, readFileSync } from 'node:fs';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { bandOf, type Given, painted, prepared } from '../testing/wood-grain.ts';
import wood from './index.ts';
import { PARAMETERS } from './parameters.ts';

const folder = new URL('../../presets/wood-grain/', import.meta.url);
const presets = readdirSync(folder).map((file) => ({
  file,
  ...(JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as { effect: string; parameters: Given }),
}));

describe('presets', () => {
  it('are at least eight and cover every species, construction, cut and body', () => {
    expect(presets.length).toBeGreaterThanOrEqual(8);
    const values = presets.map(({ parameters }) => resolveValues('wood-grain', PARAMETERS, parameters));
    for (const name of ['species', 'construction', 'cut', 'body'] as const) {
      const used = new Set(values.map((value) => value[name]));
      for (const option of PARAMETERS[name].options) expect(used).toContain(option);
    }
  });

  it.each(presets.map((preset) => [preset.file, preset] as const))(
    '%s is of this effect and paints',
    (_, preset) => {
      expect(preset.effect).toBe(wood.name);
      const { model } = prepared('drop:1/2', 120, 90, preset.parameters);
      const { tint, shade } = painted(model, bandOf(-7, -9, 60, 50, 0.5));
      const shown = preset.parameters.body === 'relief' ? shade : tint;
      expect(shown.every((value) => value >= 0 && value < 3)).toBe(true);
      expect(new Set(shown).size).toBeGreaterThan(500);
    },
  );
});
