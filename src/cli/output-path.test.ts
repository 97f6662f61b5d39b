import { expect, it } from 'vitest';
import { outputPath } from './output-path.ts';

it('carries what tells one render from another: preset, seed, density', () => {
  const name = (parts: Parameters<typeof outputPath>[2]) => outputPath(undefined, 'art/sprig.v2.png', parts);
  expect(name({ target: 'linen-weave', preset: 'flour-sack', seed: '1' })).toBe(
    'sprig.v2-linen-weave-flour-sack.png',
  );
  expect(name({ target: 'recipes/my-one.json', seed: '1' })).toBe('sprig.v2-my-one.png');
  const names = [
    name({ target: 'linen-weave', seed: '1' }),
    name({ target: 'linen-weave', seed: '2' }),
    name({ target: 'linen-weave', seed: '2.5' }),
    name({ target: 'linen-weave', seed: '2', dpi: 75 / 25.4 }),
    name({ target: 'linen-weave', seed: '2', dpi: 300 / 25.4 }),
    name({ target: 'linen-weave', seed: '2', sketch: true }),
  ];
  expect(new Set(names).size).toBe(names.length);
  expect(name({ target: 'linen-weave', seed: 'a/../b c' })).toBe('sprig.v2-linen-weave-seed-a-b-c.png');
});

it('is what is asked for, where it is', () => {
  expect(outputPath('x.tif', 'a.png', { target: 'linen-weave', seed: '9' })).toBe('x.tif');
});
