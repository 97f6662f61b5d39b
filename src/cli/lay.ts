import type { Command } from 'commander';
import type { BlendMode } from '../colour/blend.ts';
import { Fault } from '../fault.ts';
import { readInksInForce, wishOf } from '../host/ink/inks-in-force.ts';
import { layTile } from '../host/lay-tile.ts';
import { findRecipe, looksLikeFile } from '../host/plugins/find-recipe.ts';
import { openRecipe } from '../host/plugins/open-recipe.ts';
import type { MaskRecipe, Recipe } from '../host/plugins/recipe.ts';
import { resolveSteps } from '../host/plugins/resolve-steps.ts';
import type { Shelf } from '../host/plugins/shelf.ts';
import { lightOf } from '../render/light-words.ts';
import { parseDensity } from '../repeat/length.ts';
import { assignedValues } from './assigned.ts';
import {
  addRenderFlags,
  blendOption,
  collectColour,
  inkWish,
  parseDifference,
  parseOpacity,
  type RenderFlags,
} from './options.ts';
import { runRender } from './run-render.ts';
import { addScreenFlags, type ScreenFlags, screensOf } from './screen-options.ts';
import { shelfOf } from './shelf-of.ts';

interface LayFlags extends RenderFlags, ScreenFlags {
  readonly at?: number;
  readonly blend?: BlendMode;
  readonly opacity?: number;
  readonly on: readonly string[];
  readonly tolerance?: number;
  readonly softness?: number;
  readonly mask?: string;
  readonly spare?: boolean;
}

const EXAMPLES = `
Examples:
  tenter lay linen-weave sprig.png --layout drop:1/2 --size 320x320mm
  tenter lay wood-grain sprig.png --preset limed-oak --opacity 0.6 --on "#f3ead8"
  tenter lay my-recipe.json sprig.tif --out strike-off.tif
  tenter lay paper-tooth sprig.png --light direction=200 --light elevation=15
  tenter lay linen-weave sprig.png --size 320x320mm --at 254dpi
  tenter lay linen-weave sprig.png --screens 6 --card sprig.card.json --texture own --texture-ink shade
  tenter lay raw-silk sprig.png --ways sprig.ways.json --colourway dusk --on ground --size 320x320mm

The tile's size comes from --size, else from --dpi, else from the density its file states; --at changes the
pixels, never the size.
--on and --mask choose where the texture goes: on colours of the artwork, or where a grey picture is white.
"tenter check TILE" names the main colours of a tile, to choose from.
With --colourway the artwork is recoloured first, and a colour may be the name of an ink (--set thread=leaf, --on leaf):
it has the colour that the ink has there. A colour written #rrggbb is looked for in the recoloured artwork.`;

/** Adds `tenter lay`. */
export function addLay(program: Command): void {
  const command = program
    .command('lay')
    .description('Lays an effect, or a recipe of several, over an artwork tile that stands in repeat.')
    .argument('<effect-or-recipe>', 'an effect by name, a recipe by name, or a recipe file (.json)')
    .argument('<tile>', 'the artwork: PNG, JPEG, WebP or TIFF');
  addScreenFlags(addRenderFlags(command))
    .option(
      '--at <density>',
      'render at this density, e.g. 75dpi for a proof or 300dpi for print: the tile is resampled, the texture keeps its scale in mm',
      parseDensity,
    )
    .addOption(blendOption())
    .option('--opacity <share>', 'how much of the texture is laid, 0 to 1', parseOpacity)
    .option(
      '--on <colour>',
      'lay only on this colour of the artwork (#rrggbb, or an ink); may be given many times',
      collectColour,
      [],
    )
    .option(
      '--tolerance <difference>',
      'how far (CIEDE2000) a colour may be off and still count; default 5',
      parseDifference,
    )
    .option('--softness <difference>', 'over how much more it fades out; default 3', parseDifference)
    .option('--mask <picture>', 'lay only where this grey picture, the size of the tile, is white')
    .option('--spare', 'turn --on or --mask round: lay everywhere but there')
    .addHelpText('after', EXAMPLES)
    .action((target: string, tile: string, flags: LayFlags) => lay(target, tile, flags));
}

async function lay(target: string, tile: string, flags: LayFlags): Promise<void> {
  const shelf = await shelfOf(flags);
  refuseSwapped(target, tile);
  const file = await recipeFile(target, shelf);
  const recipe = await recipeOf(target, file, shelf, flags);
  const inks = await readInksInForce(wishOf(inkWish(flags), recipe.colourway));
  const steps = resolveSteps(shelf, recipe.steps, flags.seed, inks);
  const screens = await screensOf(flags, recipe.screens, inks);
  const { size, dpi: density, at } = flags;
  const work = {
    title: `${tile} with ${target}`,
    ...{ shelf, steps, names: { target, tile, dpi: at } },
    sources: [...(file === undefined ? [] : [file]), ...(inks?.sources ?? [])],
    follow: flags.follow ?? recipe.follow,
    light: lightOf(flags.light, recipe.light),
    screens,
  };
  await runRender(flags, work, (asked, progress) =>
    layTile({ ...asked, tile, size, density, at, inks }, progress),
  );
}

/** `lay tile.png linen-weave` is a slip that everybody makes once. */
function refuseSwapped(target: string, tile: string): void {
  if (!/\.(png|jpe?g|webp|tiff?)$/i.test(target)) return;
  throw new Fault({
    kind: 'usage',
    expected: 'an effect or a recipe',
    subject: 'what to lay',
    received: `the picture ${target}`,
    remedy: `The effect comes first: tenter lay ${tile} ${target}`,
    saying: `${target} is a picture, not an effect or a recipe.`,
  });
}

/** Nothing where the target is an effect. */
async function recipeFile(target: string, shelf: Shelf): Promise<string | undefined> {
  if (looksLikeFile(target)) return target;
  return shelf.effects.has(target) ? undefined : findRecipe(target, shelf);
}

async function recipeOf(
  target: string,
  path: string | undefined,
  shelf: Shelf,
  flags: LayFlags,
): Promise<Recipe> {
  if (path === undefined) return { summary: target, steps: [singleStep(target, shelf, flags)] };
  refuseStepFlags(flags, path);
  return openRecipe(path, shelf, flags.card !== undefined || flags.ways !== undefined);
}

function singleStep(effect: string, shelf: Shelf, flags: LayFlags): Recipe['steps'][number] {
  const { preset, blend, opacity, paper } = flags;
  return {
    effect,
    preset,
    parameters: assignedValues(shelf, effect, flags.set),
    blend,
    opacity,
    paper,
    mask: maskOf(flags),
  };
}

function maskOf({ on, mask, tolerance, softness, spare }: LayFlags): MaskRecipe | undefined {
  if (on.length > 0 && mask !== undefined) {
    throw new Fault({
      kind: 'usage',
      expected: 'either --on or --mask',
      subject: 'where to lay',
      received: 'both',
      remedy: 'Leave one of them out, or write a recipe with two steps.',
      saying: '--on and --mask both say where to lay.',
    });
  }
  if (on.length > 0) return { colours: [...on], tolerance, softness, spare };
  return mask === undefined ? undefined : { picture: mask, spare };
}

/** A recipe says these for each of its steps; a flag for all of them would be a guess. */
function refuseStepFlags(flags: LayFlags, path: string): void {
  const given = (['preset', 'blend', 'opacity', 'paper', 'mask'] as const).find(
    (name) => flags[name] !== undefined,
  );
  const name = given ?? (flags.set.length ? 'set' : flags.on.length ? 'on' : undefined);
  if (!name) return;
  throw new Fault({
    kind: 'usage',
    expected: 'no setting of a single effect',
    subject: `--${name}`,
    received: `it together with the recipe ${path}`,
    saying: `--${name} is for a single effect, and ${path} is a recipe.`,
    remedy: 'Write it into a step of the recipe instead.',
  });
}
