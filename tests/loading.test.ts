import { execFile } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { PassThrough } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { askOnTerminal } from '../src/cli/ask.ts';
import { API_VERSION } from '../src/effect/index.ts';
import { findEffect, openShelf, type Shelf, type ShelfOptions } from '../src/host/index.ts';
import { agreementsFile } from '../src/host/plugins/consent.ts';
import { findPackages } from '../src/host/plugins/packages.ts';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const before = { ...process.env };
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-loading-'));
});
beforeEach(() => {
  process.env.XDG_CONFIG_HOME = mkdtempSync(join(folder, 'config-'));
  delete process.env.TENTER_TRUST;
});
afterEach(() => {
  process.env = { ...before };
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write(path: string, text: string): string {
  const file = join(folder, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  return file;
}

function effectCode(name: string, more = ''): string {
  return `import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: ${API_VERSION}, name: '${name}', version: '1.0.0', summary: 'Half the light.',
  parameters: {}, planes: ['shade'], ${more}
  prepare: () => ({}), paint: (model, band, layer) => void layer.shade.fill(0.5),
});`;
}

const TRUSTED: ShelfOptions = { consent: { trust: true }, builtIn: false };

async function faultOf(work: Promise<unknown>): Promise<Error & { kind: string }> {
  return work.then(
    () => expect.fail('nothing was refused'),
    (fault) => fault,
  );
}

describe('a plugin that cannot be loaded is told by one clear message', () => {
  const parameter = (name: string, unit: string) =>
    `${name}: { kind: 'number', unit: '${unit}', min: 0, max: 1, default: 0, help: 'Some.' }`;
  const withParameters = (list: string) =>
    effectCode('odd').replace('parameters: {}', `parameters: { ${list} }`);
  const cases: [string, string, RegExp][] = [
    ['exports nothing', 'export const a = 1;', /a default export made by defineEffect .* received nothing/],
    [
      'exports another shape',
      'export default { apiVersion: 1, name: 4 };',
      /a name of lower case words .* received 4/,
    ],
    ['exports a function', 'export default () => {};', /made by defineEffect/],
    [
      'throws at load',
      'throw new TypeError("no yarn");',
      /a module that loads .* received TypeError: no yarn/,
    ],
    ['throws null at load', 'throw null;', /received a thrown null/],
    ['ends the process at load', 'process.exit(0);', /process\.exit\(0\) called/],
    ['never ends loading', 'for (;;) {}', /a module that loads .* received no progress for 1\.5 s/],
    ['waits for ever at load', 'await new Promise(() => {});', /received no progress for 1\.5 s/],
    [
      'has a syntax error',
      'const a = 1;\nexport default {{{\n',
      /a module that compiles .* in index\.ts, line 2: "export default \{\{\{"/,
    ],
    [
      'asks for an unknown unit',
      withParameters(parameter('a', 'furlong')),
      /a unit, one of mm, .* received "furlong"/,
    ],
    [
      'declares a parameter twice',
      withParameters(
        `${parameter('ends', 'mm')},\n ${parameter('picks', 'mm')},\n ${parameter('ends', 'mm')}`,
      ),
      /every name once in an object .* "ends" twice, in index\.ts, line 6: .* before that in line 4/,
    ],
    [
      'declares two parameters alike',
      withParameters(`${parameter('yarnCount', 'mm')}, ${parameter('yarncount', 'mm')}`),
      /told apart by more than capitals .* received yarnCount and yarncount/,
    ],
    [
      'imports a missing package',
      'import "@no-such/package-here/part"; export default {};',
      /packages that are installed .* line 1: .* Run "npm install @no-such\/package-here"/,
    ],
    [
      'imports a missing file',
      'import "./part.ts"; export default {};',
      /files that are there .* "\.\/part\.ts"/,
    ],
    [
      'wants what this host does not have',
      'import { weaveMore } from "tenter"; export default weaveMore;',
      /"weaveMore", which is not exported, in index\.ts, line 1.* this host is tenter \d/,
    ],
    [
      'is made for a later host',
      effectCode('later').replace(`apiVersion: ${API_VERSION}`, 'apiVersion: 99'),
      /apiVersion 1 to 3, .* received 99\. Update tenter/,
    ],
    [
      'is made for no host any more',
      effectCode('old').replace(`apiVersion: ${API_VERSION}`, 'apiVersion: 0'),
      /apiVersion 1 to 3, .* received 0\. Install a newer version of the plugin/,
    ],
  ];
  it.each(cases)('%s', async (name, code, words) => {
    const path = write(`bad/${name.replaceAll(' ', '-')}/index.ts`, code);
    const sound = write('bad-beside/index.ts', effectCode('sound'));
    const shelf = await openShelf([path, sound], {
      ...TRUSTED,
      limits: { seconds: words.source.includes('no progress') ? 1.5 : 60 },
    });
    expect(shelf.faults.map(({ kind }) => kind)).toEqual(['effect']);
    expect(shelf.faults[0].message).toMatch(words);
    expect(shelf.faults[0].message).toContain(path);
    expect([...shelf.effects.keys()]).toEqual(['sound']);
    expect(() => findEffect(shelf, 'what-it-is-called')).toThrow(words);
  });

  const places: [string, () => string, RegExp][] = [
    ['is no module', () => write('notes.txt', 'hm'), /received a file that is no module/],
    ['is an empty folder', () => dirname(write('empty/readme.md', 'hm')), /received a folder without one/],
    ['is not there', () => join(folder, 'nowhere'), /received no such file or folder/],
    ['is no package', () => 'no-such-package', /no file, folder or package of that name/],
  ];
  it.each(places)('%s', async (_name, place, words) => {
    const fault = await faultOf(openShelf([place()], { ...TRUSTED, from: folder }));
    expect(fault.kind).toBe('input');
    expect(fault.message).toMatch(words);
  });

  it('and what a plugin prints does not get among the answers', async () => {
    const path = write('chatty/index.ts', `console.log('hello');\n${effectCode('chatty')}`);
    const { out, err, code } = await run(['effects', 'chatty', '--plugins', path, '--trust', '--json']);
    expect(code).toBe(0);
    expect(JSON.parse(out).name).toBe('chatty');
    expect(err).toContain('hello');
  });
});

it('an effect that may be in a plugin that did not load is no word mistyped', async () => {
  const broken = write('two/a.ts', 'throw new Error("a");');
  const other = write('two/b.ts', 'throw new Error("b");');
  const kindOf = (shelf: Shelf) => {
    try {
      findEffect(shelf, 'lost');
    } catch (fault) {
      return (fault as { kind: string }).kind;
    }
  };
  expect(kindOf(await openShelf([broken, other], TRUSTED))).toBe('input');
  expect(kindOf(await openShelf([broken], TRUSTED))).toBe('input');
  expect(kindOf(await openShelf([write('sound.ts', effectCode('sound'))], TRUSTED))).toBe('usage');
});

describe('other versions of the host', () => {
  it('an effect from a later one, with more to it, is taken for what it is', async () => {
    const path = write('later.js', effectCode('later', "mood: 'calm', inPrint: () => true,"));
    const shelf = await openShelf([path], TRUSTED);
    expect(shelf.faults).toEqual([]);
    expect(Object.keys(findEffect(shelf, 'later').effect).sort()).not.toContain('mood');
  });
  it('a plugin that has its own copy of "tenter" gets this host’s', async () => {
    write(
      'copy/node_modules/tenter/package.json',
      '{ "name": "tenter", "version": "9.0.0", "main": "index.js" }',
    );
    write('copy/node_modules/tenter/index.js', 'throw new Error("the copy ran");');
    const path = write('copy/index.ts', effectCode('copied'));
    expect((await openShelf([path], TRUSTED)).faults).toEqual([]);
  });
});

describe('packages', () => {
  function writePackage(name: string, manifest: object, modules = 'project/node_modules'): void {
    write(`${modules}/${name}/package.json`, JSON.stringify({ name, version: '1.2.0', ...manifest }));
  }
  beforeAll(() => {
    const tenter = { effects: ['./slub.ts', './lib/crepe.js'] };
    writePackage('@mill/ground', { keywords: ['tenter-effect'], tenter });
    write('project/node_modules/@mill/ground/slub.ts', effectCode('mill-slub'));
    write('project/node_modules/@mill/ground/lib/crepe.js', effectCode('mill-crepe'));
    const preset = { effect: 'mill-slub', summary: 'As it is.', parameters: {} };
    write('project/node_modules/@mill/ground/presets/mill-slub/plain.json', JSON.stringify(preset));
    writePackage('left-pocket', { main: 'index.js' });
    writePackage('odd-effects', { keywords: ['tenter-effect'] });
    writePackage('outside', { tenter: { effects: ['../left-pocket/index.js'] } });
    mkdirSync(join(folder, 'project/inner/deep'), { recursive: true });
  });

  it('are found by keyword and field, from any folder below', async () => {
    const found = await findPackages(join(folder, 'project/inner/deep'));
    expect(found.map(({ name, version, entries }) => [name, version, entries.length])).toEqual([
      ['@mill/ground', '1.2.0', 2],
    ]);
  });
  it('are loaded by name, with all their effects and presets', async () => {
    const shelf = await openShelf(['@mill/ground'], { ...TRUSTED, from: join(folder, 'project/inner') });
    expect(shelf.faults).toEqual([]);
    expect([...shelf.effects.keys()].sort()).toEqual(['mill-crepe', 'mill-slub']);
    expect(findEffect(shelf, 'mill-slub').presets.map(({ name }) => name)).toEqual(['plain']);
  });
  it('are listed by the command before any of their code has run', async () => {
    const { out, code } = await run(['effects'], join(folder, 'project'));
    expect(code).toBe(0);
    expect(out).toContain('package: @mill/ground 1.2.0 (2 effects)');
  });
  it.each([
    ['left-pocket', /a package with effects .* received one without/],
    ['odd-effects', /"tenter": \{ "effects": /],
    ['outside', /effects inside the package/],
    ['@mill/grund', /Did you mean "@mill\/ground"\?/],
  ])('%s is refused in words', async (name, words) => {
    const fault = await faultOf(openShelf([name], { ...TRUSTED, from: join(folder, 'project') }));
    expect(fault.message).toMatch(words);
  });
});

function run(args: string[], cwd = folder): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    const running = execFile(process.execPath, [command, ...args], { cwd }, (error, out, err) => {
      resolve({ code: error ? Number(error.code) : 0, out, err });
    });
    running.stdin?.end();
  });
}

describe('the user agrees before a plugin runs', () => {
  /** A plugin that leaves a mark as soon as it is imported. */
  function marked(name: string): { path: string; mark: string } {
    const mark = join(folder, `${name}-ran`);
    const code = `import { writeFileSync } from 'node:fs';\nwriteFileSync(${JSON.stringify(mark)}, '');\n`;
    return { path: write(`${name}/index.ts`, code + effectCode(name)), mark };
  }
  const withAnswer = (answer: boolean, asked: string[] = []): ShelfOptions => ({
    builtIn: false,
    consent: {
      ask: async (places) => {
        asked.push(...places.map(({ id }) => id));
        return answer;
      },
    },
  });

  it('else nothing of it has run, and the message says how', async () => {
    const { path, mark } = marked('unasked');
    for (const options of [{ builtIn: false }, withAnswer(false)]) {
      const fault = await faultOf(openShelf([path], options));
      expect(fault.kind).toBe('usage');
      expect(fault.message).toMatch(/all your rights.*--trust.*TENTER_TRUST=1/);
      expect(existsSync(mark)).toBe(false);
      expect(existsSync(agreementsFile())).toBe(false);
    }
    const { code, err } = await run(['effects', '--plugins', path]);
    expect([code, existsSync(mark)]).toEqual([2, false]);
    expect(err).toContain('your agreement to run plugins');
    expect((await run(['effects', '--plugins', path, '--trust'])).code).toBe(0);
    expect(existsSync(mark)).toBe(true);
  });
  it('once for a folder and what is in it, and again for another', async () => {
    const { path } = marked('asked');
    const asked: string[] = [];
    await openShelf([dirname(path)], withAnswer(true, asked));
    await openShelf([dirname(path)], withAnswer(false, asked));
    await openShelf([path], withAnswer(false, asked));
    expect(asked).toEqual([dirname(path)]);
    await faultOf(openShelf([marked('asked-too').path], withAnswer(false, asked)));
    expect(asked).toHaveLength(2);
    expect((await run(['effects', 'asked', '--plugins', dirname(path)])).code).toBe(0);
    expect(readdirSync(dirname(agreementsFile()))).toEqual(['agreed-plugins.json']);
  });
  it('for one version of a package', async () => {
    const install = (version: string) => {
      const manifest = { name: 'versioned', version, tenter: { effects: ['./index.js'] } };
      write('versions/node_modules/versioned/package.json', JSON.stringify(manifest));
    };
    write('versions/node_modules/versioned/index.js', effectCode('versioned'));
    const from = join(folder, 'versions');
    const asked: string[] = [];
    for (const version of ['1.0.0', '1.0.0', '1.0.1']) {
      install(version);
      await openShelf(['versioned'], { ...withAnswer(true, asked), from });
    }
    const real = realpathSync(join(from, 'node_modules/versioned'));
    expect(asked.map((id) => id.replace(/[0-9a-f]{64}$/, 'hash'))).toEqual([
      `npm:versioned@1.0.0 ${real} sha256:hash`,
      `npm:versioned@1.0.1 ${real} sha256:hash`,
    ]);
  });
  it('and again where the code of that version has changed, in a part of it too, or lies elsewhere', async () => {
    const install = (where: string, part: string) => {
      const manifest = { name: 'changed', version: '1.0.0', tenter: { effects: ['./index.js'] } };
      write(`${where}/node_modules/changed/package.json`, JSON.stringify(manifest));
      write(
        `${where}/node_modules/changed/index.js`,
        `import './node_modules/part/index.js';\n${effectCode('changed')}`,
      );
      write(`${where}/node_modules/changed/node_modules/part/index.js`, part);
    };
    const asked: string[] = [];
    for (const [where, part] of [
      ['here', 'let a = 1;'],
      ['here', 'let a = 1;'],
      ['here', 'let a = 2;'],
      ['there', 'let a = 2;'],
    ]) {
      install(where, part);
      await openShelf(['changed'], { ...withAnswer(true, asked), from: join(folder, where) });
    }
    expect(asked).toHaveLength(3);
    expect(new Set(asked).size).toBe(3);
  });
  it('or by a variable, for scripts', async () => {
    process.env.TENTER_TRUST = '1';
    expect((await openShelf([marked('by-variable').path], { builtIn: false })).effects.size).toBe(1);
  });
  it('a broken list of agreements is told, not taken for consent', async () => {
    mkdirSync(dirname(agreementsFile()), { recursive: true });
    writeFileSync(agreementsFile(), '{ "places": ');
    const fault = await faultOf(openShelf([marked('broken-list').path], withAnswer(true)));
    expect(fault.message).toMatch(/agreed-plugins\.json .*Delete that file/);
    expect(readFileSync(agreementsFile(), 'utf8')).toBe('{ "places": ');
  });
  it.each([
    ['y\n', true],
    ['yes\n', true],
    ['\n', false],
    ['no\n', false],
    [null, false],
  ])('the question on a terminal, answered %j', async (answer, agreed) => {
    const input = Object.assign(new PassThrough(), { isTTY: true });
    const output = Object.assign(new PassThrough(), { isTTY: true });
    const ask = askOnTerminal({ input, output })!;
    const answered = ask([
      { id: '/there/ember', folder: '/there/ember', entries: ['/there/ember/index.ts'] },
    ]);
    input.end(answer ?? undefined);
    expect(await answered).toBe(agreed);
    expect(String(output.read())).toMatch(/\/there\/ember \(one effect\)\n.*all your rights[\s\S]*\[y\/N\]/);
  });
  it('nobody is asked in a pipe', () => {
    expect(askOnTerminal({ input: new PassThrough(), output: new PassThrough() })).toBeUndefined();
  });
});
