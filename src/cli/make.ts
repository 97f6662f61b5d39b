import type { Command } from 'commander';
import { parseHex } from '../colour/hex.ts';
import { Fault } from '../fault.ts';
import { makeTile } from '../host/lay-tile.ts';
import { openShelf } from '../host/shelf.ts';
import { resolveSteps } from '../host/step.ts';
import { assignedValues } from './assigned.ts';
import { addRenderFlags, type RenderFlags } from './options.ts';
import { outputPath } from './output-path.ts';
import { printRender } from './print-render.ts';
import { runLong } from './run-long.ts';

interface MakeFlags extends RenderFlags {
  readonly ground: string;
}

/** 254 dpi is 10 px to the mm, so a size in whole mm always lands on whole pixels. */
const DEFAULT_PIXELS_PER_MM = 10;

const EXAMPLES = `
Examples:
  tenter make wood-grain --size 320x640mm --layout drop:1/2
  tenter make linen-weave --size 100x100mm --dpi 300 --fit --set ends=14 --ground "#d8cdb4"

Without --dpi the density is 254 dpi: 10 px to the mm, so a size in whole mm always fits.`;

/** Adds `tenter make`. */
export function addMake(program: Command): void {
  const command = program
    .command('make')
    .summary('make a texture alone, as a tile that closes')
    .description('Makes the texture of an effect alone, as a tile that closes over its layout.')
    .argument('<effect>', 'the effect, by name');
  addRenderFlags(command)
    .option('--ground <colour>', 'the colour under the texture, #rrggbb', readColour, '#ffffff')
    .addHelpText('after', EXAMPLES)
    .action((effect: string, flags: MakeFlags) => make(effect, flags));
}

async function make(effect: string, flags: MakeFlags): Promise<void> {
  const shelf = await openShelf(flags.plugins);
  const parameters = assignedValues(shelf, effect, flags.set);
  const steps = resolveSteps(shelf, [{ effect, preset: flags.preset, parameters }], flags.seed);
  const { layout, fit, follow, overwrite, ground } = flags;
  const density = flags.dpi ?? DEFAULT_PIXELS_PER_MM;
  const out = outputPath(flags.out, undefined, [effect, flags.preset]);
  const size = flags.size ?? missingSize();
  const report = await runLong(flags, (progress) =>
    makeTile({ layout, size, density, fit, steps, follow, out, overwrite, ground }, progress),
  );
  printRender({ title: `${effect} alone`, steps, seed: flags.seed, report, json: flags.json });
}

function readColour(text: string): string {
  parseHex(text);
  return text;
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
