import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { EffectDescription } from '../../render/description.ts';
import { isBuilt, packageRoot } from '../code/root.ts';
import type { Preset } from './preset.ts';

/** An effect that comes with the host, as the build described it. */
export interface BuiltInEffect {
  readonly effect: EffectDescription;
  readonly presets: readonly Preset[];
  /** The module that holds it, an absolute path. */
  readonly entry: string;
}

const FOLDER = join(packageRoot, 'dist/plugins');

/**
 * The built-in effects without importing any: a command needs the code of one, and the names of all. The
 * build writes down what loading each gave it.
 *
 * @returns Nothing where the sources run, or where the build left no descriptions: then they must be loaded.
 */
export async function describedEffects(): Promise<readonly BuiltInEffect[] | undefined> {
  if (!isBuilt) return undefined;
  const described = await readDescriptions();
  return described?.map(({ folder, effect, presets }) => ({
    effect,
    // The build names their files from the root of the package.
    presets: presets.map((preset) => ({ ...preset, file: join(packageRoot, preset.file) })),
    entry: join(FOLDER, folder, 'index.js'),
  }));
}

async function readDescriptions(): Promise<
  readonly { folder: string; effect: EffectDescription; presets: Preset[] }[] | undefined
> {
  try {
    return JSON.parse(await readFile(join(FOLDER, 'descriptions.json'), 'utf8'));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}
