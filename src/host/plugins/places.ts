import { createHash } from 'node:crypto';
import { readdir, realpath, stat } from 'node:fs/promises';
import { extname, join, resolve } from 'node:path';
import { Fault } from '../../fault.ts';
import { remedyOfMissing } from '../../picture/near-file.ts';
import { bundlePlugin } from '../code/bundle.ts';
import { findPackage, isPackageName, readPackage } from './packages.ts';

/** Somewhere that plugins come from. */
export interface PluginPlace {
  /** What the user agrees to: a real path, or `npm:name@version` with the real path and a hash of its code. */
  readonly id: string;
  readonly folder: string;
  /** The modules, one effect each. */
  readonly entries: readonly string[];
}

const ENTRY_NAMES = ['index.ts', 'index.mts', 'index.js', 'index.mjs'];
const MODULE_ENDINGS = ['.ts', '.mts', '.js', '.mjs'];

/**
 * Finds what `--plugins` names; nothing of it is run.
 *
 * @param given Each a file, a folder (a plugin, a package, or several of them), or the name of an installed package.
 * @param from  Where relative paths and the search for packages start.
 * @throws Fault (input) for a place that is missing or holds no plugin.
 */
export async function findPlaces(given: readonly string[], from: string): Promise<PluginPlace[]> {
  const places = await Promise.all(given.map((text) => findPlace(text, from)));
  return places.filter(({ id }, index) => places.findIndex((place) => place.id === id) === index);
}

/** The modules in a folder of plugins, or the one that it is. */
export async function moduleEntries(place: string): Promise<readonly string[]> {
  const kind = await kindOf(place);
  if (kind === 'file') return MODULE_ENDINGS.includes(extname(place)) ? [place] : [];
  if (kind !== 'folder') return [];
  const own = await entriesOf(place);
  if (own.length) return own;
  const names = (await readdir(place)).filter((name) => !name.startsWith('.') && name !== 'node_modules');
  return (await Promise.all(names.sort().map((name) => entriesOf(join(place, name))))).flat();
}

async function findPlace(given: string, from: string): Promise<PluginPlace> {
  const path = resolve(from, given);
  const kind = await kindOf(path);
  if (kind === undefined && isPackageName(given)) {
    const { name, version, folder, entries } = await findPackage(given, from);
    return { id: `npm:${name}@${version} ${folder} sha256:${await codeHash(entries)}`, folder, entries };
  }
  const entries = await moduleEntries(path);
  if (entries.length) return { id: await realpath(path), folder: path, entries };
  throw new Fault({
    kind: 'input',
    expected: 'a plugin (index.ts or index.js in a folder, or a .ts or .js file), or a folder of plugins',
    subject: given,
    received: whatIsThere(kind),
    remedy: kind === undefined ? remedyOfMissing(given, { from }) : 'Check the path.',
  });
}

/** Changes with the code that would run; nothing of it runs here. What does not compile has no code to run. */
async function codeHash(entries: readonly string[]): Promise<string> {
  const hash = createHash('sha256');
  for (const entry of entries) {
    const made = await bundlePlugin(entry).catch((fault: unknown) => {
      if (Fault.is(fault)) return { contentHash: fault.message };
      throw fault;
    });
    hash.update(`${made.contentHash}\n`);
  }
  return hash.digest('hex');
}

function whatIsThere(kind: Kind): string {
  if (kind === undefined) return 'no such file or folder';
  return kind === 'file' ? 'a file that is no module' : 'a folder without one';
}

async function entriesOf(folder: string): Promise<readonly string[]> {
  if ((await kindOf(folder)) !== 'folder') return [];
  const manifest = await readPackage(folder);
  if (manifest) return manifest.entries;
  const names = await readdir(folder);
  const entry = ENTRY_NAMES.find((name) => names.includes(name));
  return entry ? [join(folder, entry)] : [];
}

type Kind = 'file' | 'folder' | undefined;

async function kindOf(path: string): Promise<Kind> {
  try {
    return (await stat(path)).isDirectory() ? 'folder' : 'file';
  } catch {
    return undefined;
  }
}
