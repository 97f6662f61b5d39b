import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { testFolder } from '../../picture/testing/folder.ts';
import { openRecipe } from './open-recipe.ts';
import { readPreset } from './preset.ts';
import { readRecipe } from './recipe.ts';
import type { Shelf } from './shelf.ts';

const folder = testFolder();
let count = 0;

function file(text: string): string {
  const path = join(folder, `file-${++count}.json`);
  writeFileSync(path, text);
  return path;
}

const refusal = (reading: Promise<unknown>): Promise<string> =>
  reading.then(
    () => '',
    (error) => error.message,
  );

const EFFECT = {
  name: 'ripple',
  version: '1.0.0',
  summary: 'Rings.',
  planes: ['shade'],
  parameters: {
    length: { kind: 'number', unit: 'mm', min: 1, max: 50, default: 10, help: 'From ring to ring.' },
    depth: { kind: 'number', unit: 'ratio', min: 0, max: 1, default: 0.5, help: 'How deep.' },
  },
} as const;
const SHELF = {
  effects: new Map([['ripple', { effect: EFFECT, moduleUrl: '', place: '', files: [], presets: [] }]]),
  faults: [],
} as unknown as Shelf;

const SCHEMA_TALK =
  /Invalid input|received (string|number|undefined|object|array)\b|schema in|Too (small|big)/;

it('a recipe may hold remarks and commas too many', async () => {
  const recipe = await readRecipe(
    file('{\n  // a first try\n  "summary": "One.", /* more */\n  "steps": [{ "effect": "ripple" },],\n}'),
  );
  expect(recipe.steps).toEqual([{ effect: 'ripple', mask: undefined }]);
});

it('a preset may too, and its values are told with their lines', async () => {
  const good = file('{ // calm\n "effect": "ripple", "summary": "Calm.", "parameters": { "length": 4, }, }');
  expect(await readPreset(good, EFFECT as never)).toMatchObject({ parameters: { length: 4 } });
  const bad = file(
    '{ "effect": "ripple", "summary": "Calm.",\n"parameters": {\n"length": 400,\n"deph": 1\n} }',
  );
  const told = await refusal(readPreset(bad, EFFECT as never));
  expect(told).toMatch(/2 faults/);
  expect(told).toMatch(/line 3, parameters.length: expected a number from 1 to 50 mm .*received 400/);
  expect(told).toMatch(/line 4, parameters.deph: .*Did you mean "depth"\?/);
});

it('all that is wrong with the shape of a recipe is told at once, with lines, as a person would', async () => {
  const told = await refusal(
    readRecipe(
      file(`{
  "summary": 3,
  "folow": "cloth",
  "steps": [
    {
      "efect": "ripple",
      "opacity": "60%",
      "blend": "multipli",
      "paper": "f3ead8"
    },
    { "effect": "ripple", "opacity": 60, "mask": {} },
    { "effect": "ripple", "parameters": { "depth": {}, "length": [null] } },
    "ripple"
  ]
}`),
    ),
  );
  expect(told).not.toMatch(SCHEMA_TALK);
  for (const line of [
    /Expected a recipe without faults, but .*file-\d+\.json has 12 faults:\n {2}line 2/,
    /line 2, summary: expected a text in quotes but received 3/,
    /line 3, folow: no such property\. Did you mean "follow"\?/,
    /line 5, steps\[0\]\.effect: it is missing/,
    /line 6, steps\[0\]\.efect: no such property\. Did you mean "effect"\?/,
    /line 7, steps\[0\]\.opacity: expected a number but received "60%"\. Write 0\.6\./,
    /line 8, steps\[0\]\.blend: expected one of .* but received "multipli"\. Did you mean "multiply"\?/,
    /line 9, steps\[0\]\.paper: expected a colour written #rrggbb but received "f3ead8"\. Write "#f3ead8"\./,
    /line 11, steps\[1\]\.opacity: expected a number up to 1 but received 60/,
    /line 11, steps\[1\]\.mask: expected either colours or a picture/,
    /line 12, steps\[2\]\.parameters\.depth: expected a number, a text, true or false, or a list of numbers or texts but received {}/,
    /line 12, steps\[2\]\.parameters\.length: expected .* or a list of numbers or texts but received a list/,
    /line 13, steps\[3\]: expected \{\.\.\.\}, with names and values, but received "ripple"/,
  ])
    expect(told).toMatch(line);
});

it('what the steps of a recipe name is told at once as well', async () => {
  const told = await refusal(
    openRecipe(
      file(`{ "summary": "Two.", "steps": [
  { "effect": "ripple", "parameters": {
      "length": 400,
      "dept": 1,
      "depth": "60%" } },
  { "effect": "rippel" },
  { "effect": "ripple",
    "preset": "calm" }
] }`),
      SHELF,
    ),
  );
  expect(told).toMatch(/5 faults/);
  expect(told).toMatch(/line 3, steps\[0\]\.parameters\.length: expected a number from 1 to 50 mm/);
  expect(told).toMatch(/line 4, steps\[0\]\.parameters\.dept: .*Did you mean "depth"\?/);
  expect(told).toMatch(/line 5, steps\[0\]\.parameters\.depth: .*Write 0\.6\./);
  expect(told).toMatch(/line 6, steps\[1\]\.effect: no effect is called "rippel"\. Did you mean "ripple"\?/);
  expect(told).toMatch(/line 8, steps\[2\]\.preset: .*"calm"/);
});

it('a preset where a recipe is meant is named as one, and the other way round', async () => {
  const preset = file('{ "effect": "ripple", "summary": "Calm.", "parameters": {} }');
  expect(await refusal(readRecipe(preset))).toMatch(/received a preset of ripple\..*"steps"/);
  const recipe = file('{ "summary": "One.", "steps": [{ "effect": "ripple" }] }');
  expect(await refusal(readPreset(recipe, EFFECT as never))).toMatch(/received a recipe\./);
  const collection = file('{ "summary": "One.", "tiles": [], "recipes": [] }');
  expect(await refusal(readRecipe(collection))).toMatch(/received a collection\..*collect/);
});
