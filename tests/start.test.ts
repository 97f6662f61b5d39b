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

const ARTWORK = { create: { width: 300, height: 300, channels: 3 as const, background: '#7a4' } };

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
  // In a preset alone: the test has to prove each of them.
  writeFileSync(path, code.replace('tones.next()', 'tones.next() / (spacing === 12 ? 0 : 1)'));
  const spoilt = await test();
  expect(spoilt.code).toBe(1);
  expect(spoilt.out + spoilt.err).toMatch(/does not keep its contract[\s\S]*windless/);
});

it('as a package it is found by its name where it is installed', async () => {
  await run('start', 'leaf-fall', '--package');
  const manifest = JSON.parse(readFileSync(join(folder, 'leaf-fall/package.json'), 'utf8'));
  expect(manifest.name).toBe('leaf-fall');
  const readme = readFileSync(join(folder, 'leaf-fall/README.md'), 'utf8');
  expect(readme).toContain('npm install tenter leaf-fall');
  expect(readme).not.toContain('petal-fall');
  const host = join(folder, 'leaf-fall', manifest.devDependencies.tenter.replace('file:', ''));
  expect(JSON.parse(readFileSync(join(host, 'package.json'), 'utf8')).name).toBe('tenter');
  mkdirSync(join(folder, 'node_modules'), { recursive: true });
  symlinkSync(join(folder, 'leaf-fall'), join(folder, 'node_modules/leaf-fall'));
  expect((await run('effects')).out).toContain('package: leaf-fall 0.1.0 (one effect)');
  // By its name alone it is not loaded, for it is a program; what to add is said wherever it is named.
  for (const [name, ...rest] of [
    ['make', 'leaf-fall'],
    ['effects', 'leaf-fall'],
    ['lay', 'leaf-fall', 'a.png'],
  ]) {
    const refused = await run(name, ...rest);
    expect([refused.code, refused.err]).toEqual([
      2,
      expect.stringContaining('The package leaf-fall is installed: add --plugins leaf-fall.'),
    ]);
  }
  const { code, out } = await run('effects', 'leaf-fall', '--plugins', 'leaf-fall', '--trust');
  // Every line for those who install it, as it stands there.
  writeFileSync(join(folder, 'artwork.png'), await sharp(ARTWORK).png().toBuffer());
  const lines = readme.split('## Work on it')[0].match(/^npx tenter .*$/gm)!;
  expect(lines.length).toBe(3);
  for (const line of lines) {
    const done = await run(...line.split(' ').slice(2), '--trust');
    expect([line, done.code, done.err]).toEqual([line, 0, '']);
  }
  expect([code, out]).toEqual([0, expect.stringContaining('windless')]);
});

it('says which packages are installed where an effect may be in one of them', async () => {
  const project = join(folder, 'shop');
  const packages = join(project, 'node_modules/@mill/cloths');
  mkdirSync(packages, { recursive: true });
  writeFileSync(
    join(packages, 'package.json'),
    JSON.stringify({
      name: '@mill/cloths',
      version: '1.0.0',
      keywords: ['tenter-effect'],
      tenter: { effects: ['./i.js'] },
    }),
  );
  const make = (...args: string[]) => node(join(root, 'dist/cli/main.js'), ['make', ...args], project);
  expect((await make('cloths')).err).toContain(
    'The package @mill/cloths is installed: add --plugins @mill/cloths.',
  );
  expect((await make('burlap-of-jute')).err).toMatch(
    /Installed and not loaded: @mill\/cloths.* \(add --plugins NAME\)/,
  );
  // Whoever only misspelt a name is not sent elsewhere.
  expect((await make('linen-waeve')).err).not.toContain('@mill/cloths');
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
