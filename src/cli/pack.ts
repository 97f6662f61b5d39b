import { type Command, Option } from 'commander';
import { planCollection, readCollection } from '../collection/index.ts';
import { hexOfBytes } from '../colour/hex.ts';
import { Fault } from '../fault.ts';
import { isObjectWith } from '../host/files/json-file.ts';
import { readTextFile } from '../host/files/text-file.ts';
import { readCard } from '../host/ink/card-file.ts';
import { readColourways } from '../host/ink/colourway-file.ts';
import { readInksInForce } from '../host/ink/inks-in-force.ts';
import { findRecipe, looksLikeFile } from '../host/plugins/find-recipe.ts';
import { openRecipe } from '../host/plugins/open-recipe.ts';
import type { Recipe } from '../host/plugins/recipe.ts';
import { resolveSteps } from '../host/plugins/resolve-steps.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import { type Design, designOfItem, designOfTile, type ParcelWish, packDesigns } from '../pack/index.ts';
import { readOutputProfile } from '../picture/in-profile.ts';
import { lightOf } from '../render/light-words.ts';
import type { Layout } from '../repeat/layout.ts';
import { parseDensity, parseSize, type Size } from '../repeat/length.ts';
import { wordsFrom } from './collect-options.ts';
import {
  collect,
  jsonOption,
  layoutOption,
  memoryLimitOption,
  pluginsOption,
  timeLimitOption,
  trustOption,
} from './options.ts';
import { finishPacking, printParcel } from './pack-words.ts';
import { namesOf, parseTrap } from './plate-options.ts';
import { runLong } from './run-long.ts';
import { screensOf } from './screen-options.ts';
import { shelfOf } from './shelf-of.ts';

interface PackFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly at?: number;
  readonly fit?: boolean;
  readonly preset?: string;
  readonly seed: string;
  readonly only: readonly string[];
  readonly card?: string;
  readonly ways?: string;
  readonly plates?: boolean;
  readonly dots?: boolean;
  readonly trap?: number;
  readonly overprint?: readonly string[];
  readonly profile?: string;
  readonly format: 'tif' | 'png';
  readonly paper: 'a4' | 'a3';
  readonly zip?: boolean;
  readonly out: string;
  readonly overwrite?: boolean;
  readonly plugins: readonly string[];
  readonly trust?: boolean;
  readonly timeLimit?: number;
  readonly memoryLimit?: number;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter pack sprig.png --layout half-drop --size 320x320mm
  tenter pack linen-weave sprig.png --layout half-drop --size 320x320mm --card sprig.card.json --zip
  tenter pack my-recipe.json sprig.tif roses.tif --profile mill.icc --paper a3
  tenter pack spring.json --only chosen.txt --at 254dpi

Each design gets a folder of its own, or a ZIP: the print, its layers (OpenRaster), a strike-off sheet (PDF), a
README.txt for the mill and parcel.json with the SHA-256 of every file. A picture is packed as it is; an effect or
recipe that is named before it is laid over it. Of a collection every render is packed, or those of --only.
What is there already, from the same inputs, is not made again: stop it at any time and run it again to go on.`;

/** Adds `tenter pack`. */
export function addPack(program: Command): void {
  program
    .command('pack')
    .description(
      'Packs designs for the mill: everything that a stranger needs to print them, in one folder each.',
    )
    .argument(
      '<what...>',
      'pictures; an effect or recipe before them, which is laid over each; or a collection (.json)',
    )
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile, e.g. 640x640mm', parseSize)
    .option('--dpi <density>', 'pixel density of the tile, where its file states none', parseDensity)
    .option('--at <density>', 'print at this density; the size in mm stays', parseDensity)
    .option('--fit', 'where the repeat misses whole pixels, take the nearest that fits')
    .option('--preset <name>', 'preset of the effect that is laid')
    .option('--seed <text>', 'seed of what is laid', '1')
    .addOption(
      new Option(
        '--only <name>',
        'of a collection only this render, or those that a text file lists; may be given many times',
      )
        .argParser(collect)
        .default([], 'all'),
    )
    .option('--card <file>', 'the shade card: inks, areas and screens are then counted')
    .option('--ways <file>', 'the file of the colourways, to be shown on the sheet; it names its card too')
    .option('--plates', 'with a plate for each ink of --card')
    .option('--dots', 'plates of 1 bit, in scattered dots, instead of tones')
    .option('--trap <width>', 'let inks spread under those they meet, e.g. 0.2mm', parseTrap)
    .option(
      '--overprint <names>',
      'inks that are printed over those before them, e.g. "shadow,line"',
      namesOf,
    )
    .option('--profile <file>', 'convert the print to this ICC profile of RGB or CMYK; default sRGB')
    .addOption(new Option('--format <kind>', 'of the print').choices(['tif', 'png']).default('tif'))
    .addOption(new Option('--paper <size>', 'of the strike-off sheet').choices(['a4', 'a3']).default('a4'))
    .option('--zip', 'one ZIP per design instead of a folder')
    .option('--out <folder>', 'where parcels go', 'parcels')
    .option('--overwrite', 'replace parcels of the same name that were made from other inputs')
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(timeLimitOption())
    .addOption(memoryLimitOption())
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action((what: string[], flags: PackFlags) => pack(what, flags));
}

async function pack(what: readonly string[], flags: PackFlags): Promise<void> {
  const shelf = await shelfOf(flags);
  const wish = await wishOf(flags);
  const { designs, failed } = await designsOf(what, flags, shelf);
  const result = await runLong(flags, (progress) =>
    packDesigns(designs, wish, shelf, {
      ...progress,
      onParcel: (parcel) => {
        if (!flags.json) printParcel(parcel);
      },
    }),
  );
  finishPacking({ made: result.made, failed: [...failed, ...result.failed] }, flags.json);
}

async function wishOf(flags: PackFlags): Promise<ParcelWish> {
  const { out: folder, zip: isZip = false, format, paper, overwrite = false } = flags;
  const profile = flags.profile === undefined ? undefined : await readOutputProfile(flags.profile);
  if (profile?.space === 'CMYK' && format === 'png') refuseCmykPng(profile.name);
  const ways = flags.ways === undefined ? undefined : await readColourways(flags.ways, flags.card);
  const card = ways?.card ?? (flags.card === undefined ? undefined : await readCard(flags.card));
  const colourways = (ways?.colourways ?? []).map(({ name, colours }) => ({
    name,
    colours: Object.fromEntries(colours.map((colour, at) => [card!.inks[at].name, hexOfBytes(colour)])),
  }));
  if (flags.plates && !card) refusePlates();
  if (!flags.plates) refuseWithoutPlates(flags);
  const plates = flags.plates
    ? { bits: flags.dots ? (1 as const) : (8 as const), trap: flags.trap, overprint: flags.overprint }
    : undefined;
  return { folder, isZip, format, paper, overwrite, profile, card, plates, colourways };
}

interface Found {
  readonly designs: readonly Design[];
  /** Pictures that cannot be packed, which keep nobody else from it. */
  readonly failed: readonly { readonly name: string; readonly fault: Fault }[];
}

async function designsOf(what: readonly string[], flags: PackFlags, shelf: Shelf): Promise<Found> {
  const [first, ...rest] = what;
  if (await isCollection(first)) {
    if (rest.length > 0) throw tooMuch(first, rest[0]);
    const only = flags.only.length ? (await Promise.all(flags.only.map(wordsFrom))).flat() : undefined;
    const plan = await planCollection(await readCollection(first), shelf, { only, dpi: flags.at });
    return { designs: plan.items.map(designOfItem), failed: [] };
  }
  const isPicture = /\.(png|jpe?g|webp|tiff?)$/i.test(first);
  if (!isPicture && rest.length === 0) throw nothingToLayOn(first);
  const recipe = isPicture ? undefined : await recipeOf(first, flags, shelf);
  const inks = await readInksInForce(recipe?.colourway ?? {});
  const steps = recipe ? resolveSteps(shelf, recipe.steps, flags.seed, inks) : [];
  const screens = await screensOf({ textureInk: [] }, recipe?.screens, inks);
  const { layout, size, dpi: density, at, fit } = flags;
  const target = isPicture ? undefined : first;
  const wish = { layout, size, density, at, fit, steps, target, inks, screens };
  const found = { designs: [] as Design[], failed: [] as Found['failed'][number][] };
  for (const path of isPicture ? what : rest) {
    try {
      const of = { ...wish, follow: recipe?.follow, light: lightOf(recipe?.light) };
      found.designs.push(await designOfTile(path, of, shelf));
    } catch (fault) {
      if (!Fault.is(fault) || what.length === (isPicture ? 1 : 2)) throw fault;
      found.failed.push({ name: path, fault });
    }
  }
  return found;
}

async function recipeOf(target: string, { preset }: PackFlags, shelf: Shelf): Promise<Recipe> {
  if (!looksLikeFile(target) && shelf.effects.has(target))
    return { summary: target, steps: [{ effect: target, preset }] };
  const file = looksLikeFile(target) ? target : await findRecipe(target, shelf);
  if (preset === undefined) return openRecipe(file, shelf);
  throw new Fault({
    kind: 'usage',
    expected: 'no preset',
    subject: '--preset',
    received: `it together with the recipe ${target}`,
    remedy: 'Write it into a step of the recipe instead.',
  });
}

async function isCollection(word: string): Promise<boolean> {
  if (!/\.jsonc?$/i.test(word)) return false;
  const text = await readTextFile(word, { expected: 'a collection or a recipe', remedy: 'Check the path.' });
  // A file that is broken is told of by whoever reads it, with the line.
  const { parse } = await import('jsonc-parser');
  return isObjectWith(parse(text), 'tiles');
}

function tooMuch(collection: string, other: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a collection alone',
    subject: 'what to pack',
    received: `${collection} and ${other}`,
    remedy: 'Pack them one after the other.',
  });
}

function nothingToLayOn(target: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a picture, or an effect or recipe with pictures after it',
    subject: 'what to pack',
    received: `"${target}" alone`,
    remedy: `Name the tile after it: tenter pack ${target} TILE.png --size 320x320mm.`,
  });
}

function refusePlates(): never {
  throw new Fault({
    kind: 'usage',
    expected: 'a shade card',
    subject: '--plates',
    received: 'none',
    remedy: 'Add --card CARD.json; "tenter inks TILE" writes one.',
  });
}

/** Traps that nobody makes are missed on the cloth. */
function refuseWithoutPlates(flags: PackFlags): void {
  const option = (['dots', 'trap', 'overprint'] as const).find((name) => flags[name] !== undefined);
  if (option === undefined) return;
  throw new Fault({
    kind: 'usage',
    expected: '--plates with it',
    subject: `--${option}`,
    received: 'it alone',
    remedy: 'Add --plates, or leave it out.',
  });
}

function refuseCmykPng(name: string): never {
  throw new Fault({
    kind: 'usage',
    expected: '--format tif',
    subject: '--profile',
    received: `"${name}", a profile of CMYK, together with --format png`,
    saying: `A PNG holds no CMYK, and "${name}" is a profile of CMYK.`,
    remedy: 'Leave --format out, or give a profile of RGB.',
  });
}
