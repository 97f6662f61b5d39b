import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { testFolder } from '../../picture/testing/folder.ts';
import { openRecipe } from '../plugins/open-recipe.ts';
import { openShelf } from '../plugins/shelf.ts';
import { describeRecipe } from './describe-recipe.ts';
import { startRecipe } from './start-recipe.ts';

const folder = testFolder();

it('a started recipe is right as it is, holds remarks, and is described in sentences', async () => {
  const shelf = await openShelf();
  const file = join(folder, 'mine.json');
  await startRecipe({ file, effect: 'linen-weave', preset: 'dinner-cloth', shelf });
  expect(readFileSync(file, 'utf8')).toMatch(/^ +\/\/ /m);
  const recipe = await openRecipe(file, shelf);
  expect(recipe.steps).toMatchObject([{ effect: 'linen-weave', preset: 'dinner-cloth' }]);
  const words = describeRecipe(recipe, shelf).join('\n');
  expect(words).toMatch(/1\. linen-weave in the preset dinner-cloth/);
  expect(words).not.toMatch(/undefined/);

  const before = readFileSync(file, 'utf8');
  await expect(startRecipe({ file, effect: 'raw-silk', shelf })).rejects.toThrow(/already|free/);
  expect(readFileSync(file, 'utf8')).toBe(before);

  const wrong = join(folder, 'wrong.json');
  await expect(startRecipe({ file: wrong, effect: 'linnen-weave', shelf })).rejects.toThrow(/"linen-weave"/);
  await expect(startRecipe({ file: wrong, effect: 'linen-weave', preset: 'x', shelf })).rejects.toThrow(
    /No preset of linen-weave/,
  );
  expect(existsSync(wrong)).toBe(false);
});

it('says what differs in each step', async () => {
  const shelf = await openShelf();
  const words = describeRecipe(
    {
      summary: 'Two.',
      steps: [
        { effect: 'wood-grain', opacity: 0.8, seed: '7' },
        {
          effect: 'linen-weave',
          parameters: { ends: 14 },
          blend: 'multiply',
          mask: { colours: ['#f3ead8'], spare: true },
        },
      ],
    },
    shelf,
  );
  expect(words).toEqual([
    'Two.',
    '  1. wood-grain, at 80 % of its strength, with the seed 7',
    '  2. linen-weave, with ends 14, laid as multiply, everywhere but on #f3ead8',
  ]);
});
