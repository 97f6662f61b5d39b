import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const RIDGES = `import { defineEffect } from 'tenter';
export default defineEffect({
  apiVersion: 2, name: 'ridges', version: '1.0.0', summary: 'Ridges.', parameters: {}, planes: ['relief'],
  prepare: ({ box }) => ({ width: box.width }),
  paint({ width }, { x, mmPerPixelX, width: pixels }, { relief }) {
    for (let k = 0; k < relief.length; k++)
      relief[k] = 0.1 + 0.1 * Math.sin((2 * Math.PI * 10 * ((x + (k % pixels) + 0.5) * mmPerPixelX)) / width);
  },
});`;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-light-'));
  const plain = { create: { width: 120, height: 90, channels: 3 as const, background: '#86a0b4' } };
  await sharp(plain).png().toFile(join(folder, 'plain.png'));
  const steps = [{ effect: 'paper-tooth', parameters: { granulation: 0 } }, { effect: 'dry-brush' }];
  writeFileSync(join(folder, 'own.json'), JSON.stringify({ summary: 'A.', light: { direction: 20 }, steps }));
  writeFileSync(
    join(folder, 'wrong.json'),
    JSON.stringify({ summary: 'A.', light: { elevation: 2 }, steps }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function tenter(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, XDG_CONFIG_HOME: join(folder, 'config'), TENTER_TRUST: '' },
  });
  return { status, stdout, stderr };
}

const lay = (what: string, out: string, ...more: string[]) =>
  tenter('lay', what, 'plain.png', '--dpi', '127', '--out', out, '--overwrite', ...more);
const bytes = (name: string) => readFileSync(join(folder, name));

it('comes from the recipe, and from the command line before it', () => {
  expect(lay('own.json', 'a.png').stdout).toContain('light    from 20 deg, 20 deg high, gloss 0');
  const said = lay('own.json', 'b.png', '--light', 'elevation=12deg', '--light', 'gloss=0.4');
  expect(said.stdout).toContain('light    from 20 deg, 12 deg high, gloss 0.4');
  expect(bytes('a.png').equals(bytes('b.png'))).toBe(false);
  const facts = JSON.parse(lay('own.json', 'a.png', '--json').stdout);
  expect(facts.light).toEqual({ direction: 20, elevation: 20, gloss: 0 });
}, 120_000);

/** What `tenter watch` draws first of a ridged effect. */
function preview(...light: string[]): Promise<Buffer> {
  const made = join(folder, 'ridges');
  mkdirSync(made, { recursive: true });
  writeFileSync(join(made, 'index.ts'), RIDGES);
  const flags = ['--trust', '--size', '20x20mm', '--workers', '1', ...light];
  const watching = spawn(process.execPath, [command, 'watch', made, ...flags], { cwd: folder });
  return new Promise((resolve, reject) => {
    watching.stdout.on('data', (said) => {
      if (!String(said).includes('drawn')) return;
      watching.kill('SIGKILL');
      resolve(readFileSync(join(made, 'preview.png')));
    });
    watching.stderr.on('data', (said) => reject(new Error(String(said))));
    watching.on('exit', () => reject(new Error('it ended')));
  });
}

it('stands in the preview of an effect that is being written', async () => {
  const [usual, low] = [await preview(), await preview('--light', 'direction=0', '--light', 'elevation=9')];
  expect(low.equals(usual)).toBe(false);
  expect((await preview('--light', 'direction=225')).equals(usual)).toBe(true);
}, 120_000);

it('gives the same bytes for any number of workers', () => {
  for (const workers of ['1', '2', '3'])
    lay('own.json', `${workers}.png`, '--layout', 'turn', '--workers', workers);
  expect(bytes('2.png').equals(bytes('1.png'))).toBe(true);
  expect(bytes('3.png').equals(bytes('1.png'))).toBe(true);
}, 120_000);

it('makes the result of a reflected artwork stand straight, and says so', () => {
  const made = lay('own.json', 'm.png', '--layout', 'mirror-x', '--follow', 'artwork');
  expect(made.stdout).toContain('the mirror-x tile was unfolded; the result stands straight');
  expect(made.stdout).toContain('Closes over straight');
}, 120_000);

it.each<[string[], string]>([
  [['--light', 'elevation=3'], 'Expected a number from 5 to 90 for --light elevation but received "3"'],
  [['--light', 'elevatoin=30'], 'Did you mean "elevation"?'],
  [['--light', 'bright'], 'Write for example --light elevation=30.'],
  [['--set', 'rake=30'], 'paper-tooth no longer takes "rake". The light is the recipe'],
])(
  'refuses %j',
  (args, words) => {
    const { status, stderr } = lay('paper-tooth', 'x.png', ...args);
    expect(status).not.toBe(0);
    expect(stderr).toContain(words);
  },
  60_000,
);

it('a recipe with a light that cannot be is refused with its line', () => {
  expect(lay('wrong.json', 'x.png').stderr).toMatch(/light\.elevation/);
}, 60_000);

it('says where it changes nothing', () => {
  expect(lay('wood-grain', 'l.png', '--light', 'gloss=1').stderr).toContain(
    'warning: the light changes nothing here: wood-grain raises no surface that it could fall on',
  );
}, 60_000);

it('falls on an effect that lights itself, and is told', () => {
  const { stdout, stderr } = lay('linen-weave', 'own.png', '--light', 'direction=45');
  expect(stdout).toContain('light    from 45 deg');
  expect(stderr).not.toContain('warning: the light');
}, 60_000);

it('is in the pictures for laying by hand', () => {
  const make = (direction: string, out: string) =>
    tenter(
      'make',
      'paper-tooth',
      '--size',
      '20x20mm',
      '--set',
      'granulation=0',
      '--layer',
      '--out',
      out,
      '--light',
      direction,
    );
  expect(make('direction=0', 'right.png').stdout).toContain('light    from 0 deg');
  make('direction=180', 'left.png');
  expect(bytes('right-dark.png').equals(bytes('left-dark.png'))).toBe(false);
}, 60_000);

it('is part of what makes an item of a collection, and stands in its record', () => {
  const recipes = [20, 200].map((direction) => ({
    name: `from-${direction}`,
    effect: 'paper-tooth',
    light: { direction },
  }));
  const tiles = [{ picture: 'plain.png', dpi: 127 }];
  writeFileSync(join(folder, 'collection.json'), JSON.stringify({ summary: 'C.', tiles, recipes }));
  const { status, stderr } = tenter('collect', 'run', 'collection.json');
  expect(status, stderr).toBe(0);
  const record = (name: string) =>
    JSON.parse(readFileSync(join(folder, `made/plain/from-${name}.png.json`), 'utf8'));
  expect(record('20').inputs.light).toEqual({ direction: 20, elevation: 20, gloss: 0 });
  expect(record('20').picture.sha256).not.toBe(record('200').picture.sha256);
}, 120_000);
