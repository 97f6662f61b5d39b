import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCollection } from '../../collection/file/read.ts';
import { readPicture } from '../../picture/index.ts';
import { filer, socketIn, testFolder } from '../../picture/testing/folder.ts';
import { bundlePlugin } from '../code/bundle.ts';
import { readPackage } from '../plugins/packages.ts';
import { readRecipe } from '../plugins/recipe.ts';
import { openShelf } from '../plugins/shelf.ts';

const folder = testFolder();
const file = filer(folder);
const text = (content: string | Buffer) => file(Buffer.from(content), '.json');

const RECIPE = '{ "summary": "One.", "steps": [{ "effect": "linen-weave" }] }';
const COLLECTION =
  '{ "summary": "One.", "tiles": [{ "picture": "a.png" }], "recipes": [{ "effect": "linen-weave" }] }';

/** The least that an effect can be. */
const QUIET = `export default {
  apiVersion: 1, name: 'quiet', version: '1.0.0', summary: 'Nothing.',
  parameters: {}, planes: ['shade'], prepare: () => ({}), paint() {},
};`;

const READERS: [string, (path: string) => Promise<unknown>, string][] = [
  ['a recipe', readRecipe, RECIPE],
  ['a collection', readCollection, COLLECTION],
];

function pipe(name: string): string {
  const path = join(folder, name);
  execFileSync('mkfifo', [path]);
  return path;
}

async function refusal(reading: Promise<unknown>): Promise<string> {
  const fault = await reading.then(
    () => {
      throw new Error('it was read');
    },
    (error) => error,
  );
  expect(fault).toMatchObject({ name: 'Fault', kind: 'input' });
  return fault.received;
}

describe.each(READERS)('%s', (_, read, good) => {
  it('is read with and without a byte order mark', async () => {
    await read(text(good));
    await read(text(`\ufeff${good}`));
  });

  it('is refused where it is no file', async () => {
    expect(await refusal(read(pipe(`${good.length}.pipe`)))).toBe('something that is no file');
    expect(await refusal(read(await socketIn(folder, `${good.length}.socket`)))).toBe(
      'something that is no file',
    );
    expect(await refusal(read('/dev/zero'))).toBe('something that is no file');
    expect(await refusal(read(folder))).toBe('a folder');
    expect(await refusal(read(join(folder, 'nowhere.json')))).toBe('no such file');
    expect(await refusal(read(`${folder}/a\0b.json`))).toMatch(/a character in it that no file can have/);
  });

  it('is refused where it is no text, or too large', async () => {
    const latin = Buffer.from(good.replace('One.', 'caf\xe9'), 'latin1');
    expect(await refusal(read(text(latin)))).toBe('text that is not UTF-8');
    expect(await refusal(read(text(good + ' '.repeat(16e6))))).toBe('more than 16 MB');
    // Says that it holds nothing and goes on for gigabytes.
    const endless = '/proc/self/pagemap';
    if (existsSync(endless)) expect(await refusal(read(endless))).toBeTruthy();
  });

  it('is refused where it is nested without end', async () => {
    for (const [open, close] of [
      ['[', ']'],
      ['{"a":', '}'],
    ]) {
      const deep = `${open.repeat(100_000)}1${close.repeat(100_000)}`;
      expect(await refusal(read(text(deep)))).toMatch(/brackets more than 100 deep/);
      expect(await refusal(read(text(open.repeat(100_000))))).toMatch(/brackets more than 100 deep/);
    }
  });

  it('takes brackets in a text for letters', async () => {
    await read(text(good.replace('One.', '['.repeat(200))));
  });

  it('knows no property called __proto__', async () => {
    const all = [
      good.replace('{', '{ "__proto__": { "x": 1 }, '),
      good.replace('"effect"', '"parameters": { "__proto__": 4 }, "effect"'),
      good.replace('"effect"', '"__proto__": [], "effect"'),
    ];
    for (const content of all)
      expect(await refusal(read(text(content)))).toMatch(/__proto__.*no such property/);
  });
});

it('a picture is refused where it is no file', async () => {
  expect(await refusal(readPicture(pipe('picture.png')))).toBe('something that is no file');
  expect(await refusal(readPicture('/dev/zero'))).toBe('something that is no file');
});

it('a plugin is refused where it is no file', async () => {
  expect(await refusal(bundlePlugin(pipe('plugin.ts')))).toBe('something that is no file');
});

it('a package.json that is no file is none', async () => {
  const place = join(folder, 'package');
  mkdirSync(place);
  execFileSync('mkfifo', [join(place, 'package.json')]);
  expect(await readPackage(place)).toBeUndefined();
});

it('a preset that is no file is told by name', async () => {
  const place = join(folder, 'effect');
  mkdirSync(join(place, 'presets'), { recursive: true });
  writeFileSync(join(place, 'index.ts'), QUIET);
  execFileSync('mkfifo', [join(place, 'presets', 'waiting.json')]);
  const { faults } = await openShelf([place], { consent: { trust: true }, builtIn: false });
  expect(faults.map(({ subject, received }) => [subject, received])).toEqual([
    [join(place, 'presets', 'waiting.json'), 'something that is no file'],
  ]);
});

it('presets that are no folder are told', async () => {
  const place = join(folder, 'odd');
  mkdirSync(place);
  writeFileSync(join(place, 'index.ts'), QUIET);
  writeFileSync(join(place, 'presets'), '');
  const { faults } = await openShelf([place], { consent: { trust: true }, builtIn: false });
  expect(faults.map(({ kind, subject }) => [kind, subject])).toEqual([['input', join(place, 'presets')]]);
});
