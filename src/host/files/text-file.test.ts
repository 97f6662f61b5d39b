import { execFileSync } from 'node:child_process';
import { createReadStream, existsSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openPlan } from '../../cli/collect-options.ts';
import { readCollection } from '../../collection/file/read.ts';
import { bookOfFolder } from '../../collection/sheet/index.ts';
import { readPicture } from '../../picture/index.ts';
import { filer, socketIn, testFolder } from '../../picture/testing/folder.ts';
import { startEffect } from '../author/start-effect.ts';
import { bundlePlugin } from '../code/bundle.ts';
import { agreementsFile, keepAgreement } from '../plugins/consent.ts';
import { readPackage } from '../plugins/packages.ts';
import { readRecipe } from '../plugins/recipe.ts';
import { openShelf } from '../plugins/shelf.ts';
import { readTextStream } from './text-file.ts';

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

it('a list or a report that is no file is refused', async () => {
  const list = openPlan('none.json', { plugins: [], trust: true, only: [pipe('list.txt')] });
  expect(await refusal(list)).toBe('something that is no file');
  const place = join(folder, 'made');
  mkdirSync(place);
  execFileSync('mkfifo', [join(place, 'report.json')]);
  expect(await refusal(bookOfFolder(place))).toBe('something that is no file');
});

it('a stream is read up to the same length, and endless ones no further', async () => {
  const wishes = { expected: 'a list', most: 10 };
  expect(await readTextStream(Readable.from([Buffer.from('\ufeffa'), Buffer.from('b')]), '-', wishes)).toBe(
    'ab',
  );
  expect(await refusal(readTextStream(createReadStream('/dev/zero'), '-', wishes))).toMatch(/more than/);
});

it('a new effect where no folder can be made is refused', async () => {
  const starting = startEffect({ name: 'frost', parent: '/proc/nowhere', taken: [] });
  const received = 'a place that takes no folders';
  await expect(starting).rejects.toMatchObject({ kind: 'output', received });
});

describe('the list of agreed plugins', () => {
  const place = [{ id: join(folder, 'agreed') }];
  const home = (name: string) => vi.stubEnv('XDG_CONFIG_HOME', join(folder, name));
  afterEach(() => vi.unstubAllEnvs());

  it('that is no file is refused with what to do', async () => {
    home('config');
    mkdirSync(dirname(agreementsFile()), { recursive: true });
    execFileSync('mkfifo', [agreementsFile()]);
    const keeping = keepAgreement(place);
    expect(await refusal(keeping)).toBe('something that is no file');
    await expect(keeping).rejects.toMatchObject({ remedy: expect.stringContaining('Delete') });
  });

  it('is the user\u2019s alone, and so is its folder', async () => {
    home('fresh');
    await keepAgreement(place);
    const modes = [agreementsFile(), dirname(agreementsFile())].map((path) => statSync(path).mode & 0o777);
    expect(modes).toEqual([0o600, 0o700]);
    expect(readdirSync(dirname(agreementsFile()))).toEqual(['agreed-plugins.json']);
  });

  it('that cannot be written leaves nothing behind', async () => {
    vi.stubEnv('XDG_CONFIG_HOME', '/proc/nowhere');
    await expect(keepAgreement(place)).rejects.toMatchObject({
      kind: 'output',
      remedy: expect.stringContaining('--trust'),
    });
  });
});
