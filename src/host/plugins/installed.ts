import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

/** In the `keywords` of a package.json: this package holds effects. */
export const EFFECT_KEYWORD = 'tenter-effect';

/** A package in a node_modules that says it holds effects; whether it does shows when it is read. */
export interface InstalledPackage {
  /** As it is called there, with its scope. */
  readonly name: string;
  readonly folder: string;
}

/** Those in the node_modules of a folder and of all above it; the nearest of a name counts. Nothing is run. */
export function installedPackages(from: string): InstalledPackage[] {
  const found = new Map<string, InstalledPackage>();
  for (const modules of moduleFolders(from)) {
    for (const name of packageNames(modules)) {
      const folder = join(modules, name);
      if (!found.has(name) && hasKeyword(manifestOf(folder))) found.set(name, { name, folder });
    }
  }
  return [...found.values()];
}

/** Where packages stand that are found from a folder, the nearest first. */
export function moduleFolders(from: string): string[] {
  const folders: string[] = [];
  for (let folder = resolve(from); ; folder = dirname(folder)) {
    folders.push(join(folder, 'node_modules'));
    if (folder === dirname(folder)) return folders;
  }
}

/** @param manifest What a package.json holds. */
export function hasKeyword(manifest: unknown): boolean {
  const { keywords } = (manifest ?? {}) as { keywords?: unknown };
  return Array.isArray(keywords) && keywords.includes(EFFECT_KEYWORD);
}

function packageNames(modules: string): string[] {
  return namesIn(modules).flatMap((name) =>
    name.startsWith('@') ? namesIn(join(modules, name)).map((inner) => `${name}/${inner}`) : name,
  );
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => !name.startsWith('.'));
  } catch {
    return [];
  }
}

/** More than any package.json that is one. */
const MOST_BYTES = 16e6;

/** Nothing where there is none that can be read: npm itself has more to say about that. */
function manifestOf(folder: string): unknown {
  const path = join(folder, 'package.json');
  try {
    const found = statSync(path);
    // A pipe would never end.
    if (!found.isFile() || found.size > MOST_BYTES) return undefined;
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
}
