import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Fault } from '../../fault.ts';
import { nearestName, suggestName } from '../../nearest.ts';
import type { EffectDescription } from '../../render/description.ts';
import { bundlePlugin } from '../code/bundle.ts';
import { isBuilt, packageRoot } from '../code/root.ts';
import { scratchModule } from '../code/scratch.ts';
import { Crew } from '../threads/crew.ts';
import { type Limits, LOAD_LIMITS } from '../threads/limits.ts';
import { describedEffects } from './built-in.ts';
import { type ConsentOptions, requireConsent } from './consent.ts';
import { installedPackages } from './installed.ts';
import { findPlaces, moduleEntries } from './places.ts';
import { type Preset, readPresets } from './preset.ts';

/** An effect that was found and loaded. */
export interface ShelvedEffect {
  readonly effect: EffectDescription;
  /** What a worker imports to have it. */
  readonly moduleUrl: string;
  /** The file it came from. */
  readonly place: string;
  /** The files it was made of, but for those of installed packages. */
  readonly files: readonly string[];
  readonly presets: readonly Preset[];
}

/** All effects at hand. */
export interface Shelf {
  readonly effects: ReadonlyMap<string, ShelvedEffect>;
  /** Plugins that could not be loaded; the others are usable all the same. */
  readonly faults: readonly Fault[];
  /** The names of installed packages with effects that nobody asked for; looked for when it is called. */
  readonly installed?: () => readonly string[];
}

export interface ShelfOptions {
  /** How the user's agreement to new places is come by; without it they are refused. */
  readonly consent?: ConsentOptions;
  /** Where relative paths and the search for packages start; the working folder where absent. */
  readonly from?: string;
  readonly limits?: Partial<Limits>;
  /** Gives up loading; what is not yet loaded is then among the faults, as cancelled. */
  readonly signal?: AbortSignal;
  /** False to leave out the effects that come with the host. */
  readonly builtIn?: boolean;
}

/**
 * Finds and loads the built-in effects and those that `plugins` name. All are imported in worker
 * threads alone, built in or not: the host's own thread keeps a description, and of the built-in ones
 * it takes that which the build wrote down.
 *
 * @param plugins Each a file, a folder (a plugin, a package, or several of them), or an installed package.
 * @throws Fault (input) for a place that is missing or holds no plugin; Fault (usage) for one that the
 *   user has not agreed to; Fault (effect) where two plugins share a name.
 */
export async function openShelf(
  plugins: readonly string[] = [],
  { consent, from = process.cwd(), limits, signal, builtIn = true }: ShelfOptions = {},
): Promise<Shelf> {
  const places = await findPlaces(plugins, from);
  await requireConsent(places, consent);
  const strange = [...new Set(places.flatMap(({ entries }) => entries))].map((entry) => ({
    entry,
    presets: presetFolder(dirname(entry)),
  }));
  const how = { limits: { ...LOAD_LIMITS, ...limits }, signal };
  const loaded = await Promise.all([
    builtIn ? takeBuiltIn(how) : [],
    ...shareOut(strange, availableParallelism()).map((part) => loadApart(part, how)),
  ]);
  const installed = () => installedPackages(from).flatMap(({ name }) => (plugins.includes(name) ? [] : name));
  return { ...arrange(loaded.flat()), installed };
}

/**
 * The effect of that name.
 *
 * @throws Fault with the nearest name where there is none: input where a plugin did not load, else usage.
 */
export function findEffect(shelf: Shelf, name: string): ShelvedEffect {
  const found = shelf.effects.get(name);
  if (found) return found;
  const names = [...shelf.effects.keys()];
  // Nothing is called so: most likely it is the plugin that did not load, and its fault says more.
  if (shelf.faults.length === 1 && !nearestName(name, names)) {
    const [fault] = shelf.faults;
    // To the user it is a file that cannot be read; no effect has run.
    throw new Fault({
      ...fault.toJSON(),
      kind: fault.kind === 'effect' ? 'input' : fault.kind,
      cause: fault,
    });
  }
  const broken = shelf.faults.map((fault) => ` Not loaded: ${fault.message}`).join('');
  throw new Fault({
    // Where a plugin did not load, it is most likely that one and not the word that is wrong.
    kind: broken ? 'input' : 'usage',
    expected: 'the name of an effect',
    subject: 'the effect',
    received: `"${name}"`,
    remedy: suggestEffect(name, names, shelf) + broken,
    saying: `No effect is called "${name}".`,
  });
}

/**
 * The remedy of a message about an unknown effect, or whatever else `names` are: an installed package is not
 * loaded by its name alone, and that is what most often is missing.
 */
export function suggestEffect(name: string, names: readonly string[], { installed }: Shelf): string {
  const packages = nearestName(name, names) ? [] : (installed?.() ?? []);
  const meant = packages.find((one) => one === name || one.endsWith(`/${name}`));
  if (meant !== undefined) return `The package ${meant} is installed: add --plugins ${meant}.`;
  const more =
    packages.length > 0 ? ` Installed and not loaded: ${packages.join(', ')} (add --plugins NAME).` : '';
  const isFar = nearestName(name, names) === undefined && !names.some((one) => one.startsWith(name));
  const own = isFar && more === '' ? ' One of your own is loaded by --plugins FOLDER.' : '';
  return suggestName(name, names) + more + own;
}

interface Source {
  readonly entry: string;
  readonly presets: (effect: string) => string;
}

type Loaded = ShelvedEffect | Fault;

interface HowToLoad {
  readonly limits: Limits;
  readonly signal?: AbortSignal;
}

/** The host's own effects: as the build described them, or loaded where the sources run. */
async function takeBuiltIn(how: HowToLoad): Promise<Loaded[]> {
  const described = await describedEffects();
  if (!described) return loadTogether(await builtInSources(), how);
  return described.map(({ effect, presets, entry }) => ({
    effect,
    moduleUrl: pathToFileURL(entry).href,
    place: entry,
    files: [entry],
    presets,
  }));
}

async function builtInSources(): Promise<Source[]> {
  const entries = await moduleEntries(join(packageRoot, isBuilt ? 'dist/plugins' : 'plugins'));
  return entries.map((entry) => ({ entry, presets: (effect) => join(packageRoot, 'presets', effect) }));
}

/** Several effects that share a folder keep their presets apart in folders of their names. */
function presetFolder(folder: string): (effect: string) => string {
  const shared = join(folder, 'presets');
  return (effect) => (existsSync(join(shared, effect)) ? join(shared, effect) : shared);
}

function arrange(loaded: readonly Loaded[]): Shelf {
  const effects = new Map<string, ShelvedEffect>();
  const faults: Fault[] = [];
  for (const item of loaded) {
    if (Fault.is(item)) faults.push(item);
    else putOnShelf(effects, item);
  }
  return { effects, faults };
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
      remedy: 'Rename one of the two, or leave one place out.',
    });
  }
  effects.set(name, item);
}

/** The host's own effects share a thread; their presets are read while it loads the next. */
async function loadTogether(sources: readonly Source[], { limits, signal }: HowToLoad): Promise<Loaded[]> {
  const crew = new Crew(1, limits);
  try {
    return await Promise.all(sources.map((source) => load(source, crew, signal)));
  } finally {
    await crew.close();
  }
}

/** A stranger's effect has a fresh thread: what one does to it at load, the next must not see. */
function loadApart(sources: readonly Source[], how: HowToLoad): Promise<Loaded[]> {
  return inTurn(sources, async (source) => (await loadTogether([source], how))[0]);
}

async function load({ entry, presets }: Source, crew: Crew, signal?: AbortSignal): Promise<Loaded> {
  const task = crew.begin();
  const stop = () => task.cancel();
  signal?.addEventListener('abort', stop, { once: true });
  if (signal?.aborted) stop();
  try {
    const { moduleUrl, files } = await compile(entry);
    const effect = await task.describe({ kind: 'describe', moduleUrl, place: entry });
    return {
      effect,
      moduleUrl,
      place: entry,
      files,
      presets: await readPresets(presets(effect.name), effect),
    };
  } catch (error) {
    if (Fault.is(error)) return error;
    throw error;
  } finally {
    signal?.removeEventListener('abort', stop);
    task.end();
  }
}

async function compile(entry: string): Promise<Pick<ShelvedEffect, 'moduleUrl' | 'files'>> {
  if (isBuilt && entry.startsWith(join(packageRoot, 'dist'))) {
    return { moduleUrl: pathToFileURL(entry).href, files: [entry] };
  }
  const { code, files } = await bundlePlugin(entry);
  return { moduleUrl: scratchModule(basename(dirname(entry)), code), files };
}

async function inTurn<T, R>(items: readonly T[], work: (item: T) => Promise<R>): Promise<R[]> {
  const results: R[] = [];
  for (const item of items) results.push(await work(item));
  return results;
}

function shareOut<T>(items: readonly T[], parts: number): T[][] {
  const shares: T[][] = Array.from({ length: Math.min(parts, items.length) }, () => []);
  for (const [index, item] of items.entries()) shares[index % shares.length].push(item);
  return shares;
}
