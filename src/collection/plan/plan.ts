import { resolve } from 'node:path';
import type { Quality } from '../../effect/effect.ts';
import { Fault } from '../../fault.ts';
import type { Finding, Place } from '../../host/files/findings.ts';
import { readColourways } from '../../host/ink/colourway-file.ts';
import {
  ANY_INKS,
  type ColourwayWish,
  type InksInForce,
  readInksInForce,
  wishOf,
} from '../../host/ink/inks-in-force.ts';
import { inColourway } from '../../host/ink/screens.ts';
import { picturePaths } from '../../host/parameter-pictures.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import { sourcesOf } from '../../host/plugins/sources-of.ts';
import { refuseInputsAmong } from '../../picture/index.ts';
import { remedyOfMissing } from '../../picture/near-file.ts';
import { doubtSize } from '../../render/doubt-size.ts';
import type { RenderStep } from '../../render/step.ts';
import { trimNumber } from '../../repeat/length.ts';
import { placeInside } from '../disk/output.ts';
import { outputsOf } from '../disk/outputs.ts';
import { COMMON_AXES } from '../file/axes.ts';
import type { ReadCollection } from '../file/read.ts';
import { type NamedRecipe, openRecipes } from '../file/recipes.ts';
import { type CollectionTile, openTiles } from '../file/tiles.ts';
import {
  type Choice,
  checkRules,
  choicesOf,
  countCombinations,
  isLeftOut,
  type Labels,
  stepsOf,
} from './combine.ts';
import { type GridWish, gridOf } from './grid.ts';
import { addressOf, FileHashes, inputsOf, type OutputFormat } from './identity.ts';
import type { Item } from './item.ts';
import { checkTemplate, defaultTemplate, nameOf } from './naming.ts';
import { chosenOf } from './select.ts';

/** How a plan may differ from what its file says. */
export interface PlanOptions {
  /** Another output folder. */
  readonly out?: string;
  /** Only these, by name or address (eight characters of it are enough); others are refused. */
  readonly only?: readonly string[];
  /** Pixels per mm: the chosen are rendered at this density. */
  readonly dpi?: number;
  /** How many combinations may be made at most. */
  readonly most?: number;
}

/** What a collection comes to. */
export interface Plan {
  readonly file: string;
  readonly summary: string;
  /** Of the collection file's text. */
  readonly hash: string;
  /** The output folder, absolute. */
  readonly folder: string;
  readonly options: PlanOptions;
  readonly tiles: readonly CollectionTile[];
  /** The axes that vary, in the order they were written. */
  readonly axes: readonly string[];
  /** In the order of tiles, recipes and values. */
  readonly items: readonly Item[];
  /** Every file that it is made from: its own, tiles, recipes, masks, effects with their presets. */
  readonly sources: readonly string[];
  /** How many combinations the rules left out. */
  readonly leftOut: number;
  /** What should be looked at before it is made: sizes that only a file tells and that are not to be believed. */
  readonly warnings: readonly Finding[];
}

/** Above this a mistake in an axis is likelier than a wish: half a year of proofs. */
export const MOST_COMBINATIONS = 100_000;

/**
 * Works out everything that a collection asks for, without rendering any of it.
 *
 * @throws Fault (input) that lists all that is wrong with the file, with lines; Fault (usage) for too
 *   many combinations, or a choice of what is not there; Fault (output) for a place outside the folder.
 */
export async function planCollection(
  collection: ReadCollection,
  shelf: Shelf,
  options: PlanOptions = {},
): Promise<Plan> {
  const { entry, findings, path } = collection;
  const [recipes, tiles] = [await openRecipes(collection, shelf), await openTiles(collection)];
  const axes = [
    ...new Map(recipes.flatMap((recipe) => recipe.axes).map((axis) => [axis.name, axis])).values(),
  ];
  const template = entry.output?.name ?? defaultTemplate(recipes.flatMap((recipe) => recipe.axes));
  findings.try(['output', 'name'], () =>
    checkTemplate(template, [...new Set([...COMMON_AXES, ...axes.map(({ name }) => name)])]),
  );
  checkRules(entry.except ?? [], knownLabels(tiles, recipes), findings);
  refuseTooMany(countCombinations(tiles.length, recipes), options.most, path);
  const work = new Combiner(collection, shelf, template);
  const { items, leftOut } = await work.combine(tiles, recipes);
  refuseTwins(items, collection);
  findings.throwIfAny();
  warnOfSizes(items, collection);
  const chosen = options.only ? chosenOf(items, options.only) : items;
  const final = options.dpi === undefined ? chosen : await work.atDensity(chosen, options.dpi);
  const folder = folderOf(collection, options);
  for (const name of new Set(final.map((item) => item.name.split('/').slice(0, -1).join('/')))) {
    await placeInside(folder, name === '' ? 'x' : `${name}/x`);
  }
  const sources = sourcesFor(path, tiles, recipes, shelf, final);
  await refuseInputsAmong(outputsOf(folder, final), sources);
  return {
    file: path,
    summary: entry.summary,
    hash: collection.hash,
    folder,
    options,
    tiles,
    axes: axes.map(({ name }) => name),
    items: final,
    sources,
    leftOut,
    warnings: findings.warnings,
  };
}

/** A size that an axis gives is believed. */
function warnOfSizes(items: readonly Item[], { findings }: ReadCollection): void {
  const tiles = new Set(items.filter(({ labels }) => labels.size === undefined).map(({ tile }) => tile));
  for (const { size, sizeFrom: from, width, shown, place } of tiles) {
    const doubt = size && from && doubtSize({ size, from }, width);
    if (doubt) findings.warn(place, `${shown}: ${doubt}. Write "size" or "dpi" beside it`);
  }
}

function sourcesFor(
  file: string,
  tiles: readonly CollectionTile[],
  recipes: readonly NamedRecipe[],
  shelf: Shelf,
  items: readonly Item[],
): string[] {
  const steps = recipes.flatMap((recipe) => recipe.steps);
  return [
    ...new Set([
      file,
      ...tiles.map(({ path }) => path),
      ...recipes.flatMap((recipe) => recipe.file ?? []),
      ...steps.flatMap(({ mask }) => mask?.picture ?? []),
      ...items.flatMap((item) => picturePaths(item.steps)),
      ...items.flatMap((item) => item.inks?.sources ?? []),
      ...sourcesOf(shelf, steps),
    ]),
  ];
}

/** What is rendered at another density keeps its names, so it goes to a folder of its own. */
function folderOf({ folder, entry }: ReadCollection, { out, dpi }: PlanOptions): string {
  if (out !== undefined) return resolve(out);
  const own = resolve(folder, entry.output?.folder ?? 'made');
  return dpi === undefined ? own : `${own}-${trimNumber(dpi * 25.4, 4)}dpi`;
}

/** The inks that a tile stands in, if any, and whether their files are right. */
interface FoundInks {
  readonly isRight: boolean;
  readonly inks?: InksInForce;
}

/** A recipe with a choice, and its steps in each inks that it was asked for in. */
interface Variant {
  readonly recipe: NamedRecipe;
  readonly choice: Choice;
  readonly isRight: boolean;
  readonly byInks: Map<InksInForce | undefined, RenderStep[] | undefined>;
}

/** Turns combinations into items; what is alike for many of them is worked out once. */
class Combiner {
  readonly #collection: ReadCollection;
  readonly #shelf: Shelf;
  readonly #template: string;
  readonly #hashes = new FileHashes();
  readonly #inks = new Map<string, Promise<FoundInks>>();
  readonly #format: OutputFormat;

  constructor(collection: ReadCollection, shelf: Shelf, template: string) {
    this.#collection = collection;
    this.#shelf = shelf;
    this.#template = template;
    this.#format = collection.entry.output?.format ?? 'png';
  }

  async combine(
    tiles: readonly CollectionTile[],
    recipes: readonly NamedRecipe[],
  ): Promise<{ items: Item[]; leftOut: number }> {
    const rules = this.#collection.entry.except ?? [];
    const items: Item[] = [];
    let leftOut = 0;
    const variants = recipes.flatMap((recipe) =>
      [...choicesOf(recipe.axes)].map((choice) => this.#variant(recipe, choice)),
    );
    for (const tile of tiles) {
      for (const variant of variants) {
        const { recipe, choice } = variant;
        const labels = labelsOf(tile, recipe, choice);
        if (isLeftOut(labels, rules)) leftOut++;
        else if (variant.isRight) {
          const { isRight, inks } = await this.#inksOf(tile, recipe, choice);
          const steps = isRight ? this.#stepsIn(variant, inks) : undefined;
          const item = steps && (await this.#item(tile, recipe, choice, steps, labels, inks));
          if (item) items.push(item);
        }
      }
    }
    return { items, leftOut };
  }

  /** The same renders at another density: only their grid, and with it their address, changes. */
  async atDensity(items: readonly Item[], dpi: number): Promise<Item[]> {
    const asked: Item[] = [];
    for (const item of items) {
      const { size, scale } = wishOfLabels(item.labels);
      const grid = this.#collection.findings.try(item.tile.place, () =>
        gridOf(item.tile, { size, scale, dpi }),
      );
      if (!grid) continue;
      const inputs = await inputsOf({ ...item, grid }, this.#shelf, this.#hashes);
      asked.push({ ...item, grid, inputs, density: dpi, address: addressOf(inputs) });
    }
    this.#collection.findings.throwIfAny('usage');
    return asked;
  }

  #variant(recipe: NamedRecipe, choice: Choice): Variant {
    // Which inks their names stand for is another matter for each tile.
    const isRight = this.#collection.findings.try(recipe.place, () =>
      stepsOf(this.#shelf, recipe, choice, ANY_INKS),
    );
    return { recipe, choice, isRight: isRight !== undefined, byInks: new Map() };
  }

  /** The inks that a tile stands in; what is wrong with their files is told at the tile. */
  async #inksOf(tile: CollectionTile, recipe: NamedRecipe, choice: Choice): Promise<FoundInks> {
    const name = choice.colourway?.value as string | undefined;
    const wish = wishOf({ ways: tile.ways, card: tile.card, name }, recipe.colourway);
    const key = JSON.stringify(wish);
    const reading = this.#inks.get(key) ?? this.#readInks(wish, tile.place);
    this.#inks.set(key, reading);
    return reading;
  }

  async #readInks({ card, ways, name }: ColourwayWish, place: Place): Promise<FoundInks> {
    const { findings } = this.#collection;
    // Without a name the card of the colourway file is in force, as it is.
    const read = async () => {
      if (name !== undefined || ways === undefined)
        return { inks: await readInksInForce({ card, ways, name }) };
      const file = await readColourways(ways, card);
      return { inks: { card: file.card, sources: [file.path, file.cardPath] } };
    };
    const found = await findings.tryLater(place, read);
    return { isRight: found !== undefined, inks: found?.inks };
  }

  /** The steps of a variant in these inks, worked out once. */
  #stepsIn({ recipe, choice, byInks }: Variant, inks?: InksInForce): RenderStep[] | undefined {
    if (!byInks.has(inks)) {
      const { findings } = this.#collection;
      byInks.set(
        inks,
        findings.try(recipe.place, () => stepsOf(this.#shelf, recipe, choice, inks)),
      );
    }
    return byInks.get(inks);
  }

  async #item(
    tile: CollectionTile,
    recipe: NamedRecipe,
    choice: Choice,
    steps: readonly RenderStep[],
    labels: Labels,
    inks?: InksInForce,
  ): Promise<Item | undefined> {
    const { findings } = this.#collection;
    const wish: GridWish = {
      size: choice.size?.value as string | undefined,
      scale: choice.scale?.value as number | undefined,
      dpi: choice.dpi?.value as number | undefined,
    };
    const grid = findings.try(tile.place, () => gridOf(tile, wish));
    if (!grid) return undefined;
    const follow = tile.follow ?? recipe.follow ?? 'cloth';
    const quality = (choice.quality?.value ?? 'finished') as Quality;
    const { light } = recipe;
    const screens = inColourway(recipe.screens, inks);
    const density = wish.dpi;
    const format = this.#format;
    const render = { tile, grid, steps, follow, light, screens, quality, format, density, inks };
    const inputs = await findings.tryLater(recipe.place, () => this.#inputs(render));
    if (!inputs) return undefined;
    const address = addressOf(inputs);
    const words = { ...labels, hash: address.slice(0, 8) };
    return { ...render, labels, inputs, address, name: `${nameOf(this.#template, words)}.${this.#format}` };
  }

  async #inputs(render: Parameters<typeof inputsOf>[0]) {
    try {
      return await inputsOf(render, this.#shelf, this.#hashes);
    } catch (cause) {
      const { code, message, path } = cause as NodeJS.ErrnoException;
      if (code === undefined) throw cause;
      throw new Fault({
        kind: 'input',
        expected: 'a picture that can be read',
        subject: path ?? 'a picture',
        received: code === 'ENOENT' ? 'no such file' : message,
        remedy: code === 'ENOENT' && path !== undefined ? remedyOfMissing(path) : undefined,
        cause,
      });
    }
  }
}

/** Labels are what `readerOf` made of the values, so they read back to the same. */
function wishOfLabels({ size, scale }: Labels): GridWish {
  return { size, scale: scale === undefined ? undefined : Number(scale) };
}

function labelsOf(tile: CollectionTile, recipe: NamedRecipe, choice: Choice): Labels {
  const axes = Object.entries(choice).map(([axis, { label }]) => [axis, label]);
  return { tile: tile.name, recipe: recipe.name, ...Object.fromEntries(axes) };
}

function knownLabels(
  tiles: readonly CollectionTile[],
  recipes: readonly NamedRecipe[],
): Map<string, ReadonlySet<string>> {
  const known = new Map<string, Set<string>>([
    ['tile', new Set(tiles.map(({ name }) => name))],
    ['recipe', new Set(recipes.map(({ name }) => name))],
  ]);
  for (const { name, values } of recipes.flatMap(({ axes }) => axes)) {
    const labels = known.get(name) ?? new Set();
    for (const { label } of values) labels.add(label);
    known.set(name, labels);
  }
  return known;
}

function refuseTooMany(count: number, most = MOST_COMBINATIONS, file: string): void {
  if (count <= most) return;
  throw new Fault({
    kind: 'usage',
    expected: `at most ${most} combinations`,
    subject: file,
    received: `${count} of them`,
    remedy: `Vary less, or allow it with --most ${count}.`,
    details: { combinations: count },
  });
}

/** Names are compared as a disk that does not tell capitals apart would. */
function refuseTwins(items: readonly Item[], { findings }: ReadCollection): void {
  const first = new Map<string, Item>();
  for (const item of items) {
    const key = item.name.normalize('NFC').toLowerCase();
    const other = first.get(key);
    if (other) {
      findings.add(
        ['output', 'name'],
        `two renders would be called "${item.name}": ${wordsOf(other)}, and ${wordsOf(item)}. Add what tells them apart to "name" in output, or give a tile a "name"`,
      );
    } else first.set(key, item);
  }
}

function wordsOf({ labels, tile }: Item): string {
  const axes = Object.entries(labels).filter(([axis]) => axis !== 'tile');
  return [`tile ${tile.shown}`, ...axes.map(([axis, label]) => `${axis} ${label}`)].join(', ');
}
