import type { Command } from 'commander';
import { checkPicture, type PictureReport } from '../host/check-picture.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { parseSize, type Size, trimNumber } from '../repeat/length.ts';
import { EXIT } from './exit-codes.ts';
import { jsonOption, layoutOption } from './options.ts';

interface CheckFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly sheet?: string;
  readonly afar?: string;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter check sprig.png --layout drop:1/2
  tenter check scan.jpg --sheet scan-in-repeat.png

At each edge the jump and the kink in slope are held against the same figures inside the picture.
A share of 1.00 is the most that still passes.`;

/** Adds `tenter check`. */
export function addCheck(program: Command): void {
  program
    .command('check')
    .summary('check whether a picture closes over its layout')
    .description('Checks whether a picture closes over its layout, and whether its repeat shows from afar.')
    .argument('<picture>', 'one tile: PNG, JPEG, WebP or TIFF')
    .addOption(layoutOption())
    .option('--size <size>', 'size of the tile, to tell places in mm too', parseSize)
    .option('--sheet <file>', 'write the tile in repeat, 3 x 3, with the worst fault ringed')
    .option('--afar <file>', 'write the repeat as seen from afar, with what will line up ringed')
    .option('--overwrite', 'replace these files if they are there')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action(async (picture: string, flags: CheckFlags) => {
      const report = await checkPicture({ picture, ...flags });
      if (flags.json) console.log(JSON.stringify({ picture, ...report }, null, 2));
      else printCheck(picture, flags.layout, report);
      process.exitCode = report.seams.closes ? EXIT.ok : EXIT.open;
    });
}

function printCheck(picture: string, layout: Layout, { seams, repeat, sheet, afar }: PictureReport): void {
  console.log(`${picture} in layout ${formatLayout(layout)}: ${seams.closes ? 'closes' : 'DOES NOT CLOSE'}`);
  console.log(`  ${seams.summary}`);
  for (const edge of seams.edges) {
    const figures = (['jump', 'kink', 'contour'] as const)
      .filter((name) => edge[name])
      .map((name) => `${name} ${trimNumber(edge[name]!.excess, 2)}`)
      .join(', ');
    console.log(
      `  ${edge.edge} against ${edge.meets}: ${edge.closes ? 'closes' : 'open'}${figures ? ` (${figures} of what passes)` : ''}`,
    );
  }
  console.log(`  ${repeat.summary}`);
  if (sheet) console.log(`  sheet: ${sheet}`);
  if (afar) console.log(`  afar: ${afar}`);
}
