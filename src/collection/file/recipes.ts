import { basename, dirname, extname, isAbsolute, resolve } from 'node:path';
import type { Light } from '../../composite/light.ts';
import type { Place } from '../../host/files/findings.ts';
import { ANY_INKS, type ColourwayWish, placedWish, wishOf } from '../../host/ink/inks-in-force.ts';
import { openScreens, type Screens } from '../../host/ink/screens.ts';
import type { ScreensWish } from '../../host/ink/screens-wish.ts';
import { findRecipe, looksLikeFile } from '../../host/plugins/find-recipe.ts';
import { placeStep } from '../../host/plugins/picture-paths.ts';
import { type RecipeStep, readRecipe } from '../../host/plugins/recipe.ts';
import { resolveSteps } from '../../host/plugins/resolve-steps.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import type { Follow } from '../../render/follow.ts';
import { lightOf } from '../../render/light-words.ts';
import { type Axis, axisLength, COMMON_AXES, openAxis } from './axes.ts';
import type { ReadCollection } from './read.ts';
import type { AxisEntry, RecipeEntry } from './schema.ts';

/** A recipe of a collection, looked up, with the axes that vary it. */
export interface NamedRecipe {
  readonly name: string;
  readonly steps: readonly RecipeStep[];
  readonly follow?: Follow;
  readonly light?: Light;
  /** Where the pictures are made of counted inks. */
  readonly screens?: Screens;
  /** That it is laid in where no axis says otherwise. */
  readonly colourway?: ColourwayWish;
  readonly axes: readonly Axis[];
  /** Where it has one of its own. */
  readonly file?: string;
  readonly place: Place;
}

/** Looks up all recipes and axes; whatever is wrong goes to the collection's findings. */
export async function openRecipes(collection: ReadCollection, shelf: Shelf): Promise<NamedRecipe[]> {
  const { entry, findings } = collection;
  const found: Omit<NamedRecipe, 'axes'>[] = [];
  for (const [index, recipe] of entry.recipes.entries()) {
    const place: Place = ['recipes', index];
    found.push(...((await findings.tryLater(place, () => lookUp(collection, recipe, place, shelf))) ?? []));
  }
  refuseTwins(collection, found);
  const common = openAxes(collection, entry.vary ?? {}, ['vary'], shelf, found);
  return found.map((recipe) => {
    const own = entry.recipes[recipe.place[1] as number].vary ?? {};
    const ownAxes = openAxes(collection, own, [...recipe.place, 'vary'], shelf, [recipe]);
    const kept = common.filter(({ name }) => !Object.hasOwn(own, name));
    return { ...recipe, axes: [...kept, ...ownAxes].filter(({ name }) => applies(name, recipe.steps)) };
  });
}

async function lookUp(
  collection: ReadCollection,
  entry: RecipeEntry,
  place: Place,
  shelf: Shelf,
): Promise<Omit<NamedRecipe, 'axes'>[]> {
  const { findings } = collection;
  const kinds = (['effect', 'recipe', 'steps'] as const).filter((kind) => entry[kind] !== undefined);
  if (kinds.length !== 1) {
    findings.add(
      place,
      `expected one of "effect", "recipe" and "steps" but received ${kinds.length ? kinds.join(' and ') : 'none of them'}`,
    );
    return [];
  }
  const recipes =
    entry.effect !== undefined
      ? ofEffect(entry, entry.effect, wishIn(entry, collection.folder))
      : [await ofSteps(collection, entry, place, shelf)];
  const asked = screensIn(collection, entry) ?? recipes[0].screens;
  const screens = asked && (await findings.tryLater(place, () => openScreens(asked)));
  return recipes.flatMap(({ name, steps, follow, light, colourway, file }) => {
    const from = file === undefined ? collection.folder : dirname(file);
    const placed = steps.map((step) => placeStep(shelf, placeMask(step, collection.folder), from));
    const isRight = findings.try(place, () => resolveSteps(shelf, placed, '1', ANY_INKS));
    return isRight ? [{ name, steps: placed, follow, light, screens, colourway, file, place }] : [];
  });
}

interface Found {
  readonly name: string;
  readonly steps: readonly RecipeStep[];
  readonly follow?: Follow;
  readonly light?: Light;
  readonly screens?: ScreensWish;
  readonly colourway?: ColourwayWish;
  readonly file?: string;
}

function ofEffect(entry: RecipeEntry, effect: string, colourway?: ColourwayWish): Found[] {
  const { name = effect, preset, presets, parameters, blend, opacity, paper, mask } = entry;
  const step = { effect, parameters, blend, opacity, paper, mask };
  const light = lightOf(entry.light);
  if (!presets)
    return [
      {
        name: entry.name ?? (preset ? `${effect}-${preset}` : name),
        steps: [{ ...step, preset }],
        light,
        colourway,
      },
    ];
  return presets.map((one) => ({
    ...{ name: `${name}-${one}`, steps: [{ ...step, preset: one }], light, colourway },
  }));
}

/** Paths in a collection start from its own folder. */
function wishIn({ colourway }: RecipeEntry, folder: string): ColourwayWish | undefined {
  return colourway && placedWish(colourway, folder);
}

const STEP_KEYS = ['preset', 'presets', 'parameters', 'blend', 'opacity', 'paper', 'mask'] as const;

async function ofSteps(
  { findings, folder }: ReadCollection,
  entry: RecipeEntry,
  place: Place,
  shelf: Shelf,
): Promise<Found> {
  for (const key of STEP_KEYS) {
    if (entry[key] !== undefined)
      findings.add(place, 'it belongs to a single effect; write it into a step', key);
  }
  const own = wishIn(entry, folder);
  if (entry.steps) {
    const name = entry.name ?? `recipe-${(place[1] as number) + 1}`;
    return { name, steps: entry.steps, light: lightOf(entry.light), colourway: own };
  }
  const target = entry.recipe!;
  const path = looksLikeFile(target)
    ? isAbsolute(target)
      ? target
      : resolve(folder, target)
    : await findRecipe(target, shelf);
  const { steps, follow, light, screens, colourway } = await readRecipe(path);
  const name = entry.name ?? basename(path, extname(path));
  return {
    name,
    steps,
    follow,
    light: lightOf(entry.light, light),
    screens,
    colourway: wishOf(own, colourway),
    file: path,
  };
}

/** What an entry says itself; it goes before its recipe file. */
function screensIn({ folder }: ReadCollection, { screens }: RecipeEntry): ScreensWish | undefined {
  return screens && { ...screens, card: resolve(folder, screens.card) };
}

/** Paths in a collection start from its own folder; those of a recipe file are absolute already. */
function placeMask(step: RecipeStep, folder: string): RecipeStep {
  const picture = step.mask?.picture;
  return picture === undefined
    ? step
    : { ...step, mask: { ...step.mask, picture: resolve(folder, picture) } };
}

function refuseTwins({ findings }: ReadCollection, recipes: readonly Omit<NamedRecipe, 'axes'>[]): void {
  const first = new Map<string, Place>();
  for (const { name, place } of recipes) {
    const other = first.get(name);
    if (other)
      findings.add(place, `its name "${name}" is that of recipes[${other[1]}]; give it a "name" of its own`);
    else first.set(name, place);
  }
}

function openAxes(
  { findings, folder }: ReadCollection,
  entries: Readonly<Record<string, AxisEntry>>,
  place: Place,
  shelf: Shelf,
  recipes: readonly { readonly steps: readonly RecipeStep[] }[],
): Axis[] {
  const axes: Axis[] = [];
  for (const [name, entry] of Object.entries(entries)) {
    const axis = findings.try([...place, name], () => {
      axisLength(entry);
      return openAxis(name, entry, shelf, folder);
    });
    if (axis && !recipes.some(({ steps }) => applies(name, steps))) {
      findings.add([...place, name], `no recipe here has the effect "${name.slice(0, name.indexOf('.'))}"`);
    } else if (axis) axes.push(axis);
  }
  return axes;
}

/** A parameter varies only recipes that have its effect; the others are made once, not once per value. */
function applies(axis: string, steps: readonly RecipeStep[]): boolean {
  if (COMMON_AXES.some((name) => name === axis)) return true;
  return steps.some(({ effect }) => axis.startsWith(`${effect}.`));
}
