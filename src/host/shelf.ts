import { readdir, stat } from 'node:fs/promises';
import { basename, extname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkEffect } from '../effect/contract.ts';
import type { AnyEffect } from '../effect/effect.ts';
import { suggestName } from '../effect/nearest.ts';
import { Fault } from '../fault.ts';
import { bundleModule } from './bundle.ts';
import { type Preset, readPresets } from './preset.ts';
import { isBuilt, packageRoot } from './root.ts';
import { scratchModule } from './scratch.ts';

/** An effect that was found and loaded. */
export interface ShelvedEffect {
  readonly effect: AnyEffect;
  /** What a worker imports to have it. */
  readonly moduleUrl: string;
  /** The folder or file it came from. */
  readonly place: string;
  readonly presets: readonly Preset[];
}

/** All effects at hand. */
export interface Shelf {
  readonly effects: ReadonlyMap<string, ShelvedEffect>;
  /** Plugins that could not be loaded; the others are usable all the same. */
  readonly faults: readonly Fault[];
}

const ENTRY_NAMES = ['index.ts', 'index.mts', 'index.js', 'index.mjs'];

/**
 * Finds and loads the built-in effects and those in `folders`.
 *
 * @param folders Each a plugin (a folder with index.ts or index.js, or one file) or a folder of plugins.
 * @throws Fault (input) for a folder that is missing or holds no plugin; Fault (effect) where two plugins share a name.
 */
export async function openShelf(folders: readonly string[] = []): Promise<Shelf> {
  const builtIn = await pluginEntries(join(packageRoot, isBuilt ? 'dist/plugins' : 'plugins'));
  const added = (await Promise.all(folders.map(requiredEntries))).flat();
  const effects = new Map<string, ShelvedEffect>();
  const faults: Fault[] = [];
  const loaded = await Promise.all(
    [...builtIn, ...added].map((entry) =>
      loadPlugin(entry, builtIn.includes(entry)).catch((error) => keepFault(error)),
    ),
  );
  for (const item of loaded) {
    if (Fault.is(item)) faults.push(item);
    else putOnShelf(effects, item);
  }
  return { effects, faults };
}

/** The effect of that name. @throws Fault (usage) with the nearest name where there is none. */
export function findEffect(shelf: Shelf, name: string): ShelvedEffect {
  const found = shelf.effects.get(name);
  if (found) return found;
  const broken = shelf.faults.map((fault) => ` Not loaded: ${fault.message}`).join('');
  throw new Fault({
    kind: 'usage',
    expected: 'an effect',
    subject: 'the effect',
    received: `"${name}"`,
    remedy: suggestName(name, [...shelf.effects.keys()]) + broken,
  });
}

function putOnShelf(effects: Map<string, ShelvedEffect>, item: ShelvedEffect): void {
  const { name } = item.effect;
  const holder = effects.get(name);
  if (holder) {
    throw new Fault({
      kind: 'effect',
      expected: 'a name of its own',
      subject: item.place,
      received: `"${name}", which ${holder.place} has already`,
      remedy: 'Rename one of the two, or leave one folder out.',
    });
  }
  effects.set(name, item);
}

async function loadPlugin(entry: string, builtIn: boolean): Promise<ShelvedEffect> {
  const ready = builtIn && isBuilt;
  const moduleUrl = ready
    ? pathToFileURL(entry).href
    : scratchModule(basename(resolve(entry, '..')), await bundleModule(entry));
  const effect = checkEffect(await importDefault(moduleUrl, entry), entry);
  const presetFolder = builtIn
    ? join(packageRoot, 'presets', effect.name)
    : join(resolve(entry, '..'), 'presets');
  return { effect, moduleUrl, place: entry, presets: await readPresets(presetFolder, effect) };
}

async function importDefault(moduleUrl: string, entry: string): Promise<unknown> {
  try {
    return (await import(moduleUrl)).default;
  } catch (cause) {
    throw new Fault({
      kind: 'effect',
      expected: 'a module that loads',
      subject: entry,
      received:
        cause instanceof Error
          ? `${cause.name}: ${cause.message}`
          : `a thrown ${typeof cause}: ${String(cause)}`,
      remedy: 'Mend the module and run again.',
      cause,
    });
  }
}

function keepFault(error: unknown): Fault {
  if (Fault.is(error)) return error;
  throw error;
}

async function requiredEntries(folder: string): Promise<string[]> {
  const place = resolve(folder);
  const entries = await pluginEntries(place);
  if (entries.length) return entries;
  throw new Fault({
    kind: 'input',
    expected: 'a plugin, or a folder of plugins (each with index.ts or index.js)',
    subject: folder,
    received: (await kindOf(place)) === undefined ? 'no such file or folder' : 'nothing of the kind',
    remedy: 'Check the path.',
  });
}

async function pluginEntries(place: string): Promise<string[]> {
  const kind = await kindOf(place);
  if (kind === 'file') return ['.ts', '.mts', '.js', '.mjs'].includes(extname(place)) ? [place] : [];
  if (kind !== 'folder') return [];
  const own = await entryOf(place);
  if (own) return [own];
  const names = (await readdir(place))
    .filter((name) => !name.startsWith('.') && name !== 'node_modules')
    .sort();
  const entries = await Promise.all(names.map((name) => entryOf(join(place, name))));
  return entries.filter((entry) => entry !== undefined);
}

async function entryOf(folder: string): Promise<string | undefined> {
  if ((await kindOf(folder)) !== 'folder') return undefined;
  const names = await readdir(folder);
  const entry = ENTRY_NAMES.find((name) => names.includes(name));
  return entry && join(folder, entry);
}

async function kindOf(path: string): Promise<'file' | 'folder' | undefined> {
  try {
    return (await stat(path)).isDirectory() ? 'folder' : 'file';
  } catch {
    return undefined;
  }
}
