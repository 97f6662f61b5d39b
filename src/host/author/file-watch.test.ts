import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { FileWatch } from './file-watch.ts';

let folder: string;
let files: FileWatch;

function write(path: string, text: string): string {
  const file = join(folder, path);
  writeFileSync(file, text);
  return file;
}

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-file-watch-'));
  mkdirSync(join(folder, 'own/inner'), { recursive: true });
  write('own/index.ts', 'a');
  write('shared.ts', 'a');
  files = await FileWatch.open(join(folder, 'own'));
});
afterEach(() => {
  files.close();
  rmSync(folder, { recursive: true, force: true });
});

it('tells of sources that are changed, made and deleted, and of nothing else', async () => {
  const index = write('own/index.ts', 'changed');
  expect(await files.next()).toEqual([index]);
  write('own/preview.png', 'b');
  write('own/index.test.ts', 'b');
  const preset = write('own/inner/pale.json', '{}');
  expect(await files.next()).toEqual([preset]);
  rmSync(preset);
  expect(await files.next()).toEqual([preset]);
});

it('tells of a file elsewhere once it is included', async () => {
  const shared = join(folder, 'shared.ts');
  await files.include([shared], Date.now() + 1);
  const next = files.next();
  write('shared.ts', 'changed');
  expect(await next).toEqual([shared]);
});

it('a file elsewhere that was saved after it was read counts as changed', async () => {
  const read = Date.now() - 60_000;
  const shared = join(folder, 'shared.ts');
  await files.include([shared], read);
  expect(await files.next()).toEqual([shared]);
});

it('a source that was deleted and is saved again counts, though it was included before', async () => {
  const index = join(folder, 'own/index.ts');
  rmSync(index);
  expect(await files.next()).toEqual([index]);
  write('own/index.ts', 'again');
  await files.include([index], Date.now() + 1);
  expect(await files.next()).toEqual([index]);
});
