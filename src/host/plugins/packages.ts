import { realpath } from 'node:fs/promises';
import { join, relative, resolve } from 'node:path';
import { z } from 'zod';
import { Fault } from '../../fault.ts';
import { suggestName } from '../../nearest.ts';
import { remedyOfMissing } from '../../picture/near-file.ts';
import { checkShape } from '../files/json-file.ts';
import { readTextFile } from '../files/text-file.ts';
import { hasKeyword, installedPackages, moduleFolders } from './installed.ts';

/** An npm package that holds effects. */
export interface EffectPackage {
  readonly name: string;
  readonly version: string;
  readonly folder: string;
  /** Absolute paths of the modules, one effect each. */
  readonly entries: readonly string[];
}

const manifestSchema = z.object({
  name: z.string().min(1).default('a package without a name'),
  version: z.string().min(1).default('0.0.0'),
  tenter: z.object({
    effects: z.array(z.string().min(1)).min(1).describe('Modules that each export one effect.'),
  }),
});

/**
 * The effects that the package.json in a folder names.
 *
 * @returns Nothing where there is no package.json, or it says nothing of effects.
 * @throws Fault (input) where it does, but not as `"tenter": { "effects": ["./index.ts"] }`.
 */
export async function readPackage(folder: string): Promise<EffectPackage | undefined> {
  const path = join(folder, 'package.json');
  const manifest = await readManifest(path);
  if (manifest?.tenter === undefined && !hasKeyword(manifest)) return undefined;
  const what = 'a package.json with "tenter": { "effects": ["./index.ts"] }';
  const { name, version, tenter } = checkShape(manifest, path, what, manifestSchema);
  const entries = tenter.effects.map((entry) => resolve(folder, entry));
  const outside = entries.find((entry) => relative(folder, entry).startsWith('..'));
  if (outside !== undefined) {
    throw new Fault({
      kind: 'input',
      expected: 'effects inside the package',
      subject: path,
      received: outside,
      remedy: 'Mend its "tenter": { "effects": [...] }.',
    });
  }
  return { name, version, folder: await realpath(folder), entries };
}

/** The packages with effects in the node_modules of a folder and of those above; the nearest of a name counts. */
export async function findPackages(from: string): Promise<EffectPackage[]> {
  const found = await Promise.all(installedPackages(from).map(({ folder }) => readListed(folder)));
  return found.filter((item) => item !== undefined).sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * The package of that name, as Node would find it from a folder.
 *
 * @throws Fault (input) where there is none, or it holds no effects.
 */
export async function findPackage(name: string, from: string): Promise<EffectPackage> {
  for (const modules of moduleFolders(from)) {
    const folder = join(modules, name);
    if ((await readManifest(join(folder, 'package.json'))) === undefined) continue;
    const found = await readPackage(folder);
    if (found) return found;
    throw new Fault({
      kind: 'input',
      expected: 'a package with effects',
      subject: name,
      received: `one without, in ${folder}`,
      remedy: 'Its package.json would name them: "tenter": { "effects": ["./index.js"] }.',
    });
  }
  const names = (await findPackages(from)).map((item) => item.name);
  throw new Fault({
    kind: 'input',
    expected: 'a plugin: a file, a folder, or an installed package',
    subject: name,
    received: 'no file, folder or package of that name',
    remedy: remedyOfMissing(name, {
      from,
      otherwise: names.length ? suggestName(name, names) : 'Check the path.',
    }),
  });
}

/** True for what npm takes for a package name, and so for no path. */
export function isPackageName(text: string): boolean {
  return /^(@[a-z0-9~-][a-z0-9._~-]*\/)?[a-z0-9~-][a-z0-9._~-]*$/.test(text);
}

/** One that is broken is told when it is asked for. */
async function readListed(folder: string): Promise<EffectPackage | undefined> {
  try {
    return await readPackage(folder);
  } catch (error) {
    if (Fault.is(error)) return undefined;
    throw error;
  }
}

type Manifest = Readonly<Record<string, unknown>>;

/** Nothing where the file is missing or no JSON object: npm itself has more to say about that. */
async function readManifest(path: string): Promise<Manifest | undefined> {
  try {
    const value: unknown = JSON.parse(await readTextFile(path, { expected: 'a package.json' }));
    return typeof value === 'object' && value !== null ? (value as Manifest) : undefined;
  } catch {
    return undefined;
  }
}
