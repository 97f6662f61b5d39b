import type { Command } from 'commander';
import { openLivePage } from '../page/index.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { parseDensity, parseSize, type Size } from '../repeat/length.ts';
import { demoDesigns } from './demo-designs.ts';
import {
  browserOption,
  layoutOption,
  limitsOf,
  memoryLimitOption,
  pluginsOption,
  portOption,
  timeLimitOption,
  trustOption,
} from './options.ts';
import { servedUntilStopped } from './served-until-stopped.ts';
import { shelfOf } from './shelf-of.ts';

interface OpenFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly plugins: readonly string[];
  readonly trust?: boolean;
  readonly port?: number;
  readonly browser: boolean;
  readonly timeLimit?: number;
  readonly memoryLimit?: number;
}

const EXAMPLES = `
Examples:
  tenter open sprig.png --layout drop:1/2 --size 320x320mm
  tenter open my-recipe.json
  tenter open artwork
  tenter open spring.json

The page is for this computer alone, and its address for you alone: whoever has it may save files in the folder of
the work. What is under work is kept in .tenter beside the artwork; the artwork itself is never changed.`;

/** Adds `tenter open`. */
export function addOpen(program: Command): void {
  program
    .command('open')
    .description('Opens the cloth on screen: a page on which textures are laid, seen and steered.')
    .argument(
      '[place]',
      'a tile, a recipe (.json), a collection file (.json) or a folder of tiles; the demo designs where absent',
    )
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile, e.g. 640x640mm, 25.2x25.2in or 64cm', parseSize)
    .option('--dpi <density>', 'pixel density, e.g. 300, 300dpi or 118px/cm', parseDensity)
    .addOption(portOption())
    .addOption(browserOption())
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(timeLimitOption())
    .addOption(memoryLimitOption())
    .addHelpText('after', EXAMPLES)
    .action(open);
}

async function open(place: string | undefined, flags: OpenFlags, command: Command): Promise<void> {
  const shelf = await shelfOf(flags);
  const isSaid = command.getOptionValueSource('layout') === 'cli';
  const demo = place === undefined ? await demoDesigns() : undefined;
  const page = await openLivePage({
    ...{ shelf, plugins: flags.plugins, trust: flags.trust, port: flags.port, limits: limitsOf(flags) },
    place: place ?? demo?.place,
    home: demo?.home,
    artwork: {
      layout: isSaid ? formatLayout(flags.layout) : undefined,
      size: flags.size,
      density: flags.dpi,
    },
  });
  await servedUntilStopped(page, flags.browser);
}
