import { readdirSync, readFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';
import { circlesOf, importMap, imports, importsOf, root, sources } from './house-map.ts';

const BROWSER_ROOMS = [
  'repeat',
  'field',
  'colour',
  'effect',
  'composite',
  'inspect',
  'join',
  'ink',
  'render',
  'wash',
];
/** Packages that run in a browser as they are. */
const BROWSER_PACKAGES = [
  'fast-check',
  'fastest-levenshtein',
  'fft.js',
  're2js',
  'seedrandom/lib/alea.js',
  'simplex-noise',
];
const GROUND = ['colour', 'field', 'repeat'];
const PURE = ['composite', 'inspect', 'join', 'ink', 'effect', 'wash', ...GROUND];
/** Each room may use those below it. */
const BELOW: Record<string, string[]> = {
  repeat: [],
  colour: [],
  field: ['repeat'],
  wash: ['field', 'repeat'],
  effect: ['inspect', ...GROUND],
  composite: ['effect', ...GROUND],
  inspect: GROUND,
  join: GROUND,
  ink: GROUND,
  render: PURE,
  picture: GROUND,
  host: ['render', 'picture', ...PURE],
  collection: ['host', 'render', 'picture', ...PURE],
  pack: ['collection', 'host', 'render', 'picture', ...PURE],
  page: ['collection', 'host', 'render', 'picture', ...PURE],
  cli: ['page', 'pack', 'collection', 'host', 'render', 'picture', ...PURE],
};

describe('the house', () => {
  it('sees every way to import', () => {
    const text = `
      import './bare.css';
      import type { A } from "./a.ts";
      export * from './b.ts';
      export const c = await import('./c.ts');
      type D = typeof import('./d.ts');
      // import './remark.ts';
      const e = "import './text.ts'";`;
    expect(importsOf(text)).toEqual(['./bare.css', './a.ts', './b.ts', './c.ts', './d.ts']);
  });
  it.each(BROWSER_ROOMS)('%s runs in a browser: no Node', (room) => {
    for (const file of sources(`src/${room}`)) {
      expect(
        imports(file).filter((name) => !name.startsWith('.') && !BROWSER_PACKAGES.includes(name)),
        relative(root, file),
      ).toEqual([]);
      expect(readFileSync(file, 'utf8'), relative(root, file)).not.toMatch(
        /\b(Buffer\.|process\.|Math\.random|Date\.now)/,
      );
    }
    expect(BROWSER_PACKAGES.filter(isBuiltin)).toEqual([]);
  });
  it.each(Object.keys(BELOW))('%s imports only what lies below it', (room) => {
    for (const file of sources(`src/${room}`)) {
      for (const name of imports(file).filter((path) => path.startsWith('.'))) {
        const target = relative(join(root, 'src'), resolve(dirname(file), name)).split('/')[0];
        if (target === room || ['fault.ts', 'nearest.ts'].includes(target)) continue;
        expect(BELOW[room], `${relative(root, file)} imports ${name}`).toContain(target);
      }
    }
  });
  it('a command has one way to a picture: it renders, checks, writes and says in run-render.ts alone', () => {
    const tellers = sources('src/cli').filter((file) => imports(file).includes('./print-render.ts'));
    expect(tellers.map((file) => relative(root, file))).toEqual(['src/cli/run-render.ts']);
  });
  it('a collection writes to its folder by way of its disk module alone', () => {
    const writers =
      /\b(mkdir|mkdtemp|rm|rmdir|rename|link|symlink|unlink|writeFile|appendFile|copyFile|cp|truncate)(Sync)?\b/;
    for (const file of sources('src/collection')) {
      const text = readFileSync(file, 'utf8');
      const [named = ''] = /^import \{([^}]*)\} from 'node:fs(\/promises)?'/m.exec(text) ?? [];
      const isDisk = file.endsWith('collection/disk/inside.ts');
      expect(writers.test(named), relative(root, file)).toBe(isDisk);
      if (!isDisk) expect(text, relative(root, file)).not.toMatch(/writeBeside|make-folder/);
    }
  });
  it('has no room that this test does not know', () => {
    const rooms = readdirSync(join(root, 'src'), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    expect(rooms.map(({ name }) => name).sort()).toEqual(Object.keys(BELOW).sort());
  });
  it('effects import nothing of the house but its public entry', () => {
    for (const file of sources('plugins')) {
      const [effect] = relative(join(root, 'plugins'), file).split(sep);
      const strange = imports(file).filter(
        (name) =>
          name !== 'tenter' &&
          !(
            name.startsWith('.') &&
            resolve(dirname(file), name).startsWith(join(root, 'plugins', effect) + sep)
          ),
      );
      expect(strange, relative(root, file)).toEqual([]);
    }
  });
  it('finds a circle, of two, of three and of one', () => {
    const map = new Map([
      ['a', ['b', 'd']],
      ['b', ['c']],
      ['c', ['a', 'e']],
      ['d', ['e']],
      ['e', ['f']],
      ['f', ['e', 'g']],
      ['g', ['g']],
      ['h', ['a', 'g']],
    ]);
    expect(circlesOf(map).sort()).toEqual([['a', 'b', 'c'], ['e', 'f'], ['g']]);
  });
  it('has no circles, of types either', () => {
    expect(circlesOf(importMap([...sources('src'), ...sources('plugins')]))).toEqual([]);
  });
});
