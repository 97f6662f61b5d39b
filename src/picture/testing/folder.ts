import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder of the test file's own that everybody may look into; it goes at the end. */
export function testFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'picture-test-'));
  chmodSync(folder, 0o755);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Puts files into a folder, each under a name of its own. */
export function filer(folder: string): (bytes: Uint8Array, ending?: string) => string {
  let count = 0;
  return (bytes, ending = '.png') => {
    const path = join(folder, `file-${++count}${ending}`);
    writeFileSync(path, bytes);
    return path;
  };
}

/** Puts something into a folder that has a name and is no file: a socket. */
export async function socketIn(folder: string, name: string): Promise<string> {
  const path = join(folder, name);
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(path, resolve));
  afterAll(() => new Promise<void>((resolve) => server.close(() => resolve())));
  return path;
}
