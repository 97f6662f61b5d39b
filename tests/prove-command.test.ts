import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';

const command = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const broken = (name: string) => fileURLToPath(new URL(`broken/${name}.ts`, import.meta.url));
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-prove-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function prove(...args: string[]): Promise<Ended> {
  const env = { ...process.env, XDG_CONFIG_HOME: join(folder, 'config') };
  return new Promise((done) => {
    execFile(process.execPath, [command, 'prove', ...args], { cwd: folder, env }, (error, out, err) =>
      done({ code: error ? Number(error.code) : 0, out, err }),
    );
  });
}

it('says of a sound effect that it is proven, and writes nothing', async () => {
  const { code, out } = await prove(broken('ripple'), '--trust', '--quick');
  expect(out).toContain('ripple 1.0.0: proven');
  expect(out).toMatch(/periodic +kept +It repeats over every layout/);
  expect(out).toMatch(/cost +kept .*paint ms per megapixel: \d/);
  expect(code).toBe(0);
  expect(existsSync(join(folder, 'proof'))).toBe(false);
});

it('says what is not kept, with a setting, a command that draws it and a picture', async () => {
  const { code, out } = await prove(broken('wrong-drop'), '--trust', '--quick', '--out', 'shown');
  expect(code).toBe(1);
  expect(out).toMatch(/periodic +NOT KEPT/);
  expect(out).toContain('Expected the same floats one repeat further on');
  expect(out).toContain(
    `tenter make ripple --plugins ${broken('wrong-drop')} --trust --size 31x23.5mm --layout drop:1/2`,
  );
  expect(out).toContain('ripple 1.0.0: NOT PROVEN: 1 promise not kept');
  const { width, height } = await sharp(join(folder, 'shown/ripple-periodic.png')).metadata();
  expect(width! > height! && height! > 40).toBe(true);
});

it('says how to prove it again what no picture shows, and what was not tried because of it', async () => {
  const { out } = await prove(broken('stale-cache'), '--trust', '--quick');
  expect(out).toContain(
    `again    tenter prove ripple --plugins ${broken('stale-cache')} --trust --check state --quick`,
  );
  expect(out).not.toMatch(/see it|tenter make/);
  expect(out).toMatch(
    /NOT PROVEN: 1 promise not kept; clone, model, bands, .* and abort were not tried, and may fail too once "state" is kept/,
  );
});

it('draws nothing that closes, though it is not kept further out', async () => {
  const { out } = await prove(broken('coarse-places'), '--trust', '--quick', '--check', 'periodic');
  expect(out).toMatch(/periodic +NOT KEPT/);
  expect(out).toMatch(/again +tenter prove/);
  expect(out).not.toContain('tenter make');
});

it('draws the setting that it names', async () => {
  const { out } = await prove(broken('spread-field'), '--trust', '--check', 'periodic');
  expect(out).toMatch(/with .*, as a sketch\n {4}see it +tenter make ripple .* --sketch --out/);
});

it('draws both of two seeds that give one texture', async () => {
  const { out } = await prove(broken('any-case'), '--trust', '--quick', '--check', 'seed');
  expect(out).toMatch(/see both tenter make ripple .* --seed rose .*failing\.png/);
  expect(out).toMatch(/\n {13}tenter make ripple .* --seed Rose .*failing-2\.png/);
});

it('stops what does not end, and answers scripts in one object', async () => {
  const { code, out } = await prove(
    broken('endless'),
    '--trust',
    '--quick',
    '--json',
    '--time-limit',
    '1',
    '--check',
    'runs',
    '--check',
    'parameters',
  );
  expect(code).toBe(1);
  const { proven, effects } = JSON.parse(out);
  expect(proven).toBe(false);
  expect(effects[0].results.map(({ status }: { status: string }) => status)).toEqual(['passed', 'failed']);
  expect(effects[0].results[1].failure).toMatchObject({
    received: 'none: it was still at it and was stopped',
    setting: { parameters: { depth: 0 } },
  });
});

it('a proof that is out of time says that it is not finished, and what was not reached', async () => {
  const given = [broken('slow'), '--trust', '--quick', '--proof-limit', '6'];
  const { code, out } = await prove(...given);
  expect(code).toBe(1);
  expect(out).toMatch(/abort +not reached /);
  expect(out).toMatch(
    /ripple 1\.0\.0: NOT FINISHED: .* and abort were not reached: the 6 s of the proof were over/,
  );
  expect(out).toContain('--proof-limit');
  const told = await prove(...given, '--json');
  expect(told.code).toBe(1);
  const { proven, effects } = JSON.parse(told.out);
  expect([proven, effects[0].proven]).toEqual([false, false]);
  expect(effects[0].notReached).toContain('abort');
  expect(effects[0].results[0]).toMatchObject({
    check: 'runs',
    status: 'passed',
    seconds: expect.any(Number),
  });
});

it('proves presets with the effect', async () => {
  const home = join(folder, 'still');
  mkdirSync(join(home, 'presets'), { recursive: true });
  writeFileSync(join(home, 'index.ts'), `export { default } from ${JSON.stringify(broken('extreme-nan'))};`);
  const preset = { effect: 'ripple', summary: 'No waves.', parameters: { height: 0 } };
  writeFileSync(join(home, 'presets/flat.json'), JSON.stringify(preset));
  const checks = ['--check', 'runs', '--check', 'presets'];
  const { code, out } = await prove('./still', '--trust', ...checks);
  expect(code).toBe(1);
  expect(out).toContain('Expected of preset flat shade to hold finite numbers');
  expect((await prove('./still', '--trust', '--no-presets', ...checks)).code).toBe(0);
});

it.each([
  ['an effect that is not there', ['linen-weav'], 2, 'Did you mean "linen-weave"?'],
  ['a place that is not there', ['./nothing-here'], 3, 'no such file or folder'],
  ['a check that is not there', ['linen-weave', '--check', 'periods'], 2, 'Expected one of runs'],
  ['a plugin nobody agreed to', [broken('ripple')], 2, 'agree'],
  ['no effect at all', [], 2, 'missing required argument'],
])('has one message for %s', async (_, args, code, words) => {
  const ended = await prove(...args);
  expect(ended.err).toContain(words);
  expect(ended.code).toBe(code);
});

it('writes the picture of a failure that came of one, so that its command really runs', async () => {
  const { out } = await prove(
    broken('flat-swatch'),
    '--trust',
    '--quick',
    '--check',
    'parameters',
    '--out',
    'mine',
  );
  const line = /see it +tenter (make .*)/.exec(out)?.[1];
  expect(line).toContain('--set cloth=mine/proof-flat.png');
  const words = line!.replaceAll('"', '').split(' ');
  const shown = await new Promise<string>((done) => {
    execFile(process.execPath, [command, ...words], { cwd: folder }, (_, __, err) => done(err));
  });
  expect(shown).toContain('NaN in the plane shade');
});
