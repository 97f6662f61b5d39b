import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { sweepTemporary, temporaryPrefix } from '../../picture/litter.ts';

let folder: string | undefined;
let count = 0;

/**
 * Puts compiled code where `import` and workers can load it, and returns its URL. The folder is
 * this process's own (nobody can plant code in it) and goes when the process ends.
 */
export function scratchModule(name: string, code: string): string {
  folder ??= openFolder();
  const file = join(folder, `${name}-${++count}.mjs`);
  writeFileSync(file, code);
  return pathToFileURL(file).href;
}

function openFolder(): string {
  sweepTemporary();
  const made = mkdtempSync(temporaryPrefix());
  process.once('exit', () => rmSync(made, { recursive: true, force: true }));
  return made;
}
