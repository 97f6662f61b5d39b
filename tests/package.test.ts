import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
let folder: string;

/** Packs the built package and unpacks it elsewhere as npm would install it; what it depends on is linked in. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-package-'));
  execFileSync('npm', ['pack', '--silent', '--ignore-scripts', '--pack-destination', folder], { cwd: root });
  const modules = join(folder, 'node_modules');
  mkdirSync(join(modules, 'tenter'), { recursive: true });
  execFileSync('tar', [
    '-xzf',
    join(folder, 'tenter-0.1.0.tgz'),
    '--strip-components=1',
    '-C',
    join(modules, 'tenter'),
  ]);
  symlinkSync(join(root, 'node_modules'), join(modules, 'tenter/node_modules'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const PLUGIN = `import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: 1, name: 'half-light', version: '1.0.0', summary: 'Half the light.', parameters: {}, planes: ['shade'],
  prepare: () => ({}), paint: (_model, _band, layer) => void layer.shade.fill(0.5),
});`;

it('runs its command elsewhere, with built-in effects and a stranger’s', () => {
  mkdirSync(join(folder, 'half-light'));
  writeFileSync(join(folder, 'half-light/index.ts'), PLUGIN);
  const command = join(folder, 'node_modules/tenter/dist/cli/main.js');
  const env = { ...process.env, XDG_CONFIG_HOME: join(folder, 'config') };
  const run = (...args: string[]) =>
    execFileSync(process.execPath, [command, ...args], { cwd: folder, encoding: 'utf8', env });
  expect(run('effects')).toContain('bed-sheet');
  expect(run('make', 'half-light', '--plugins', 'half-light', '--trust', '--size', '10x10mm')).toContain(
    'written',
  );
  expect(run('lay', 'wood-grain', 'half-light.png', '--size', '10x10mm', '--out', 'laid.png')).toContain(
    'seams',
  );
  expect(existsSync(join(folder, 'laid.png'))).toBe(true);
  run('start', 'hail', '--package');
  expect(existsSync(join(folder, 'hail/package.json'))).toBe(true);
  expect(run('make', 'hail', '--plugins', './hail', '--size', '20x20mm')).toContain('written');
});

it('gives its types to who imports it, and they hold', () => {
  writeFileSync(
    join(folder, 'right.ts'),
    `${PLUGIN}\nimport { openShelf } from 'tenter/host';\nvoid openShelf;`,
  );
  writeFileSync(join(folder, 'wrong.ts'), PLUGIN.replace('layer.shade', 'layer.tint'));
  const options = ['--noEmit', '--strict', '--skipLibCheck', '--module', 'nodenext', '--target', 'es2022'];
  const check = (file: string) =>
    execFileSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), ...options, file], {
      cwd: folder,
    });
  expect(() => check('right.ts')).not.toThrow();
  expect(() => check('wrong.ts')).toThrow();
});

it('leaves out tests and the demo', () => {
  expect(existsSync(join(folder, 'node_modules/tenter/tests'))).toBe(false);
  expect(JSON.parse(readFileSync(join(folder, 'node_modules/tenter/package.json'), 'utf8')).bin.tenter).toBe(
    'dist/cli/main.js',
  );
});
