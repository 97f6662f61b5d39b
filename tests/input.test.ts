import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';

const command = new URL('../dist/cli/main.js', import.meta.url).pathname;
let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-input-'));
  writeFileSync(join(folder, 'file'), 'a file in the place of a folder');
  writeFileSync(join(folder, 'deep.json'), '['.repeat(100_000));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function tenter(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 60_000,
  });
  return { status, stdout, stderr };
}

it.each([
  [2, 'make linen-weave --size 10000x10000mm'],
  [2, 'make linen-weave --size 0.5x0.5mm'],
  [2, 'make linen-weave --unheard-of'],
  [2, 'effects nothing-of-that-name'],
  [2, 'prove nothing-of-that-name'],
  [2, 'start Not-A-Name'],
  [3, 'lay linen-weave nowhere.png --size 10x10mm'],
  [3, 'lay deep.json nowhere.png'],
  [3, 'check nowhere.png'],
  [3, 'collect plan deep.json'],
  [3, 'collect run deep.json'],
  [3, 'collect report nowhere.json'],
  [3, 'collect sheet nowhere.json'],
  [4, 'make linen-weave --size 10x10mm --out file/a.png'],
])('ends in %i, with nothing but JSON on stdout: %s', (code, words) => {
  const { status, stdout } = tenter(...words.split(' '), '--json');
  expect({ status, fault: JSON.parse(stdout).fault }).toMatchObject({
    status: code,
    fault: { message: expect.any(String) },
  });
});

it('writes out what a terminal would obey', () => {
  const { stderr } = tenter('check', 'a\u001b[2Jb\u009b.png');
  expect(stderr).toContain('a\\u001b[2Jb\\u009b.png');
});

it('blames nobody but the user for any command line', () => {
  const words = fc.oneof(
    fc.constantFrom('lay', 'make', 'check', 'effects', 'collect', 'plan', 'start', 'linen-weave', 'file'),
    fc.constantFrom('--size', '--dpi', '--out', '--layout', '--set', '--seed', '--mask', '--json', '--fit'),
    fc.constantFrom('1x1mm', '1e9', 'drop:1/0', 'file/x.png', '/proc/x.png', '__proto__=1', 'deep.json'),
    // The system itself takes no NUL in a command line.
    fc.string({ unit: 'binary', maxLength: 12 }).filter((text) => !text.includes('\0')),
  );
  const before = readdirSync(folder);
  fc.assert(
    fc.property(fc.array(words, { maxLength: 6 }), (line) => {
      const { status, stderr } = tenter(...line);
      expect([0, 1, 2, 3, 4], `${line}: ${stderr}`).toContain(status);
      expect(stderr).not.toMatch(/^ {4}at /m);
      for (const name of readdirSync(folder))
        if (!before.includes(name)) rmSync(join(folder, name), { recursive: true });
    }),
    { numRuns: 25, seed: 17 },
  );
});
