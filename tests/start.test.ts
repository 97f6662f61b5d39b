import { execFile } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-start-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function node(
  script: string,
  args: string[],
  cwd = folder,
): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    const env = { ...process.env, XDG_CONFIG_HOME: join(folder, 'config'), TENTER_TRUST: '' };
    execFile(process.execPath, [script, ...args], { cwd, env }, (error, out, err) => {
      resolve({ code: error ? Number(error.code) : 0, out, err });
    });
  });
}
const run = (...args: string[]) => node(join(root, 'dist/cli/main.js'), args);
const typeCheck = (cwd: string) => node(join(root, 'node_modules/typescript/bin/tsc'), ['-p', '.'], cwd);

/** What `npm install` would bring besides. */
function installVitest(effect: string): void {
  mkdirSync(join(effect, 'node_modules'), { recursive: true });
  symlinkSync(join(root, 'node_modules/vitest'), join(effect, 'node_modules/vitest'));
}

it('a new effect renders at once, in each of its presets, and says what it needs', async () => {
  const started = await run('start', 'frosted-glass');
  expect([started.code, started.err]).toEqual([0, '']);
  expect(readdirSync(join(folder, 'frosted-glass')).sort()).toEqual([
    'README.md',
    'index.test.ts',
    'index.ts',
    'node_modules',
    'presets',
    'tsconfig.json',
  ]);
  // As open as any folder the user makes.
  mkdirSync(join(folder, 'any'));
  expect(statSync(join(folder, 'frosted-glass')).mode).toBe(statSync(join(folder, 'any')).mode);
  const make = ['make', 'frosted-glass', '--plugins', './frosted-glass', '--size', '60x60mm'];
  for (const preset of [[], ['--preset', 'windless']]) {
    const { code, out, err } = await run(...make, '--layout', 'drop:1/2', '--json', ...preset);
    expect([code, err]).toEqual([0, '']);
    const facts = JSON.parse(out);
    expect(facts.seams.closes).toBe(true);
    const { channels } = await sharp(join(folder, facts.out)).stats();
    expect(channels[1].stdev).toBeGreaterThan(10);
  }
});

it('its types are found from its own folder, and hold', async () => {
  await run('start', 'typed');
  const effect = join(folder, 'typed');
  installVitest(effect);
  expect(await typeCheck(effect)).toMatchObject({ code: 0 });
  const path = join(effect, 'index.ts');
  const code = readFileSync(path, 'utf8');
  for (const [right, wrong] of [
    ["unit: 'deg'", "unit: 'furlong'"],
    ["planes: ['tint', 'shade']", "planes: ['tint']"],
  ]) {
    writeFileSync(path, code.replace(right, wrong));
    expect((await typeCheck(effect)).code).not.toBe(0);
  }
});

it('its test proves it, and fails where it is spoilt', async () => {
  await run('start', 'tested', '--package');
  const effect = join(folder, 'tested');
  installVitest(effect);
  const test = () => node(join(root, 'node_modules/vitest/vitest.mjs'), ['run'], effect);
  const proven = await test();
  expect([proven.code, proven.out]).toEqual([0, expect.stringContaining('1 passed')]);
  const path = join(effect, 'index.ts');
  const code = readFileSync(path, 'utf8');
  writeFileSync(path, code.replace('tones.next()', 'Math.random()'));
  const spoilt = await test();
  expect(spoilt.code).toBe(1);
  expect(spoilt.out + spoilt.err).toContain('does not keep its contract');
});

it('as a package it is found by its name where it is installed', async () => {
  await run('start', 'leaf-fall', '--package');
  const manifest = JSON.parse(readFileSync(join(folder, 'leaf-fall/package.json'), 'utf8'));
  expect(manifest.name).toBe('leaf-fall');
  const host = join(folder, 'leaf-fall', manifest.devDependencies.tenter.replace('file:', ''));
  expect(JSON.parse(readFileSync(join(host, 'package.json'), 'utf8')).name).toBe('tenter');
  mkdirSync(join(folder, 'node_modules'), { recursive: true });
  symlinkSync(join(folder, 'leaf-fall'), join(folder, 'node_modules/leaf-fall'));
  expect((await run('effects')).out).toContain('package: leaf-fall 0.1.0 (one effect)');
  const { code, out } = await run('effects', 'leaf-fall', '--plugins', 'leaf-fall', '--trust');
  expect([code, out]).toEqual([0, expect.stringContaining('windless')]);
});

it('needs no link where tenter is installed above it', async () => {
  const project = join(folder, 'project');
  mkdirSync(join(project, 'node_modules'), { recursive: true });
  symlinkSync(root, join(project, 'node_modules/tenter'));
  await run('start', 'local', '--in', 'project');
  expect(existsSync(join(project, 'local/node_modules'))).toBe(false);
  expect((await run('make', 'local', '--plugins', 'project/local', '--size', '20x20mm')).code).toBe(0);
});

it.each([
  [['Frosted Glass'], 2, 'lower case words with hyphens'],
  [['../elsewhere'], 2, 'lower case words with hyphens'],
  [['linen-weave'], 2, 'is there already'],
  [['linen-ground'], 2, 'is there already'],
  [['filled'], 4, 'one with 1 things in it'],
  [['a-file'], 4, 'a file of that name'],
  [['fresh', '--in', 'refusals/a-file'], 4, 'refusals/a-file'],
])('start %j is refused, and nothing is written', async (args, code, words) => {
  const parent = join(folder, 'refusals');
  mkdirSync(join(parent, 'filled'), { recursive: true });
  writeFileSync(join(parent, 'filled/mine.txt'), 'mine');
  writeFileSync(join(parent, 'a-file'), 'mine');
  const result = await run('start', ...(args.includes('--in') ? args : [...args, '--in', 'refusals']));
  expect(result.err).toContain(words);
  expect(result.code).toBe(code);
  expect(readdirSync(parent).sort()).toEqual(['a-file', 'filled']);
  expect(readdirSync(join(parent, 'filled'))).toEqual(['mine.txt']);
});
