import type { Command } from 'commander';
import { Fault } from '../fault.ts';
import { readInksInForce } from '../host/ink/inks-in-force.ts';
import { inkedColour } from '../host/ink/named-colours.ts';
import { makeTile } from '../host/lay-tile.ts';
import { looksLikeFile } from '../host/plugins/find-recipe.ts';
import { resolveSteps } from '../host/plugins/resolve-steps.ts';
import { findEffect } from '../host/plugins/shelf.ts';
import { groundFor, WASH } from '../render/ground.ts';
import { lightOf } from '../render/light-words.ts';
import { assignedValues } from './assigned.ts';
import { addRenderFlags, inkWish, type RenderFlags, readColourOrInk } from './options.ts';
import { runRender } from './run-render.ts';
import { shelfOf } from './shelf-of.ts';

interface MakeFlags extends RenderFlags {
  readonly ground?: string;
  readonly layer?: boolean;
}

/** 254 dpi is 10 px to the mm, so a size in whole mm always lands on whole pixels. */
const DEFAULT_PIXELS_PER_MM = 10;

const EXAMPLES = `
Examples:
  tenter make wood-grain --size 320x640mm --layout drop:1/2
  tenter make salt-bloom --size 200x200mm --ground "#2f5f86"
  tenter make raw-silk --size 320x320mm --layer --out silk.png
  tenter make linen-weave --size 100x100mm --dpi 300 --fit --set ends=14 --ground "#d8cdb4"

An effect that moves paint needs a wash to work in: --ground is its colour, --paper what it is painted on.
--layer writes what can be laid by hand in a picture editor, the first named lowest, each in the W3C blend mode
that is printed with it: x-dark darkens and covers, x-light gleams, x-paint (before both) thins and gathers paint.
How far that is off is measured and printed. No layer can hold paint that moves or runs.
Without --dpi the density is 254 dpi: 10 px to the mm, so a size in whole mm always fits.`;

/** Adds `tenter make`. */
export function addMake(program: Command): void {
  const command = program
    .command('make')
    .description('Makes the texture of an effect alone, as a tile that closes over its layout.')
    .argument('<effect>', 'the effect, by name');
  addRenderFlags(command)
    .option(
      '--ground <colour>',
      `the colour under the texture, #rrggbb or an ink of the card; default white, or a wash of ${WASH} for effects that move paint`,
      readColourOrInk,
    )
    .option(
      '--layer',
      'write the texture for laying by hand over any artwork: pictures named after --out (x-dark.png, x-light.png), each with the blend mode that it is laid in',
    )
    .addHelpText('after', EXAMPLES)
    .action((effect: string, flags: MakeFlags) => make(effect, flags));
}

async function make(effect: string, flags: MakeFlags): Promise<void> {
  if (flags.layer && flags.ground !== undefined) refuseGround(flags.ground);
  if (looksLikeFile(effect)) throw notAlone(effect);
  const shelf = await shelfOf(flags);
  const parameters = assignedValues(shelf, effect, flags.set);
  const { layer, paper } = flags;
  const inks = await readInksInForce(inkWish(flags));
  const steps = resolveSteps(shelf, [{ effect, preset: flags.preset, parameters, paper }], flags.seed, inks);
  const ground = flags.ground === undefined ? undefined : inkedColour(inks, flags.ground, '--ground');
  const ownPaper = paper === undefined ? undefined : inkedColour(inks, paper, '--paper');
  const made = {
    size: flags.size ?? missingSize(),
    density: flags.dpi ?? DEFAULT_PIXELS_PER_MM,
    ground: ground ?? groundFor(findEffect(shelf, effect).effect, ownPaper),
    byHand: layer,
  };
  const work = {
    title: `${effect} alone`,
    shelf,
    steps,
    names: { target: effect },
    sources: inks?.sources,
    light: lightOf(flags.light),
  };
  await runRender(flags, work, (asked, progress) => makeTile({ ...asked, ...made }, progress));
}

/** A recipe is laid over something. */
function notAlone(recipe: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the name of an effect',
    subject: 'what to make',
    received: `the file ${recipe}`,
    remedy: `A recipe is laid over a tile: tenter lay ${recipe} TILE --size 200x200mm; "tenter make EFFECT" makes one of its effects alone.`,
  });
}

function refuseGround(ground: string): never {
  throw new Fault({
    kind: 'usage',
    expected: 'no ground',
    subject: '--ground',
    received: `${ground} together with --layer`,
    saying: '--ground and --layer do not go together: a layer is laid over any artwork.',
    remedy: 'Leave one of them out.',
  });
}

function missingSize(): never {
  throw new Fault({
    kind: 'usage',
    expected: 'the size of the repeat',
    subject: '--size',
    received: 'nothing',
    remedy: 'Add for example --size 320x320mm.',
  });
}
