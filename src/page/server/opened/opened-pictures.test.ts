import { expect, it } from 'vitest';
import { numeric, picture } from '../../../effect/parameter.ts';
import type { Shelf } from '../../../host/plugins/shelf.ts';
import type { Laying, WorkStep } from '../../words/work.ts';
import { withOpenedNames, withOpenedPaths } from './opened-pictures.ts';

const effect = {
  name: 'dyer',
  parameters: {
    cloth: picture({ default: 'own.png@4cm', help: 'A picture.' }),
    depth: numeric({ unit: 'mm', min: 0, max: 1, default: 0.5, help: 'How deep.' }),
  },
};
const presets = [{ name: 'blue', file: '/kept/blue.json', parameters: { cloth: 'blue.png' } }];
const shelf = {
  effects: new Map([['dyer', { effect, place: '/plug/in/index.ts', presets }]]),
  faults: [],
} as unknown as Shelf;
const artworks = { pathOf: (id: string) => `/art/${id}.png` };

const layingOf = (step: Omit<WorkStep, 'id' | 'effect'>): Laying => ({
  seed: '1',
  steps: [{ id: 'a', effect: 'dyer', ...step }],
});
const pathOf = (cloth: string, preset?: string) =>
  withOpenedPaths({ shelf, artworks }, layingOf({ preset, parameters: { cloth, depth: 0.2 } })).steps[0]
    .parameters?.cloth;

it('a picture on the page is one that was opened, or that effect and preset bring along', () => {
  expect(pathOf('opened:1a2b/leaf.png@100x80mm')).toBe('/art/1a2b.png@100x80mm');
  expect(pathOf('opened:1a2b')).toBe('/art/1a2b.png');
  expect(pathOf('own.png@4cm')).toBe('/plug/in/own.png@4cm');
  expect(pathOf('blue.png', 'blue')).toBe('/kept/blue.png');
  for (const strange of ['/etc/passwd', 'own.png', 'blue.png', 'opened:../x', 'opened:1a/../../x.png'])
    expect(() => pathOf(strange)).toThrow(/Expected a picture that was opened on the page for cloth/);
});

it('a path is changed for the file that names it, and nothing else is', () => {
  const laying = layingOf({ parameters: { cloth: 'opened:1a/x.png@3cm', depth: 0.2 } });
  const { steps } = withOpenedPaths({ shelf, artworks }, laying, (path) => path.replace('/art', '..'));
  expect(steps[0].parameters).toEqual({ cloth: '../1a.png@3cm', depth: 0.2 });
});

it('the pictures of a recipe are opened, by their names', async () => {
  const asked: string[] = [];
  const admit = async (path: string) => `id${asked.push(path)}`;
  const step = { effect: 'dyer', parameters: { cloth: '/far/a@2x.png@40x30mm', depth: 0.1 } };
  expect((await withOpenedNames(step, shelf, admit)).parameters).toEqual({
    cloth: 'opened:id1/a-2x.png@40x30mm',
    depth: 0.1,
  });
  expect(asked).toEqual(['/far/a@2x.png']);
  const bare = { effect: 'dyer', parameters: { depth: 0.1 } };
  expect(await withOpenedNames(bare, shelf, admit)).toBe(bare);
});
