import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of this package, wherever it is installed. */
export const packageRoot = findRoot(dirname(fileURLToPath(import.meta.url)));

/** True where the built package runs; false where the TypeScript sources do (tests). */
export const isBuilt = fileURLToPath(import.meta.url).startsWith(join(packageRoot, 'dist'));

/** The module that effects import as "tenter". */
export const publicEntry = isBuilt ? join(packageRoot, 'dist/index.js') : join(packageRoot, 'src/index.ts');

export const packageVersion: string = readManifest(packageRoot).version;

function findRoot(folder: string): string {
  if (existsSync(join(folder, 'package.json')) && readManifest(folder).name === 'tenter') return folder;
  const parent = dirname(folder);
  if (parent === folder) throw new Error('the package.json of tenter is missing above its own code');
  return findRoot(parent);
}

function readManifest(folder: string): { name: string; version: string } {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
}
