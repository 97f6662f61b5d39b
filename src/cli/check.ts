import type { Command } from 'commander';
import { checkPicture, type PictureReport } from '../host/check-picture.ts';
import { closingHint, type SeamReport } from '../inspect/index.ts';
import { wordsOfColours } from '../render/mask-words.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { parseSize, type Size } from '../repeat/length.ts';
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

At each edge the jump, the kink in slope and outlines that break off are held against the same figures
inside the picture: 100 % is the most that passes. A little more is a doubt: "look at it" says where, and
--sheet shows the place. Only "does not close" gives exit code 1.`;

/** Adds `tenter check`. */
export function addCheck(program: Command): void {
  program
    .command('check')
    .description(
      'Checks whether a picture closes over its layout, and whether its repeat shows from afar; names its main colours.',
    )
    .argument('<picture>', 'one tile: PNG, JPEG, WebP or TIFF')
    .addOption(layoutOption())
    .option('--size <size>', 'size of the tile, to tell places in mm too', parseSize)
    .option('--sheet <file>', 'write the tile in repeat, 3 x 3, with the worst place ringed')
    .option('--afar <file>', 'write the repeat as seen from afar, with what will line up ringed')
    .option('--overwrite', 'replace these files if they are there')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action(async (picture: string, flags: CheckFlags) => {
      const report = await checkPicture({ picture, ...flags });
      if (flags.json)
        console.log(
          JSON.stringify(
            {
              picture,
              ...report,
              closesOver: report.closesOver.map(({ layout, grade }) => ({
                layout: formatLayout(layout),
                grade,
              })),
            },
            null,
            2,
          ),
        );
      else printCheck(picture, flags.layout, report);
      process.exitCode = report.seams.closes ? EXIT.ok : EXIT.open;
    });
}

const GRADES: Record<SeamReport['grade'], string> = {
  closes: 'closes',
  look: 'look at it',
  open: 'does not close',
};

function printCheck(
  picture: string,
  layout: Layout,
  { seams, repeat, closesOver, colours, sheet, afar }: PictureReport,
): void {
  console.log(`${picture} in layout ${formatLayout(layout)}: ${GRADES[seams.grade]}`);
  console.log(`  ${seams.summary}`);
  for (const edge of seams.edges) {
    const figures = (['jump', 'kink', 'contour'] as const)
      .filter((name) => edge[name])
      .map((name) => `${NAMES[name]} ${Math.round(100 * edge[name]!.excess)} %`)
      .join(', ');
    console.log(
      `  ${edge.edge} against ${edge.meets}: ${GRADES[edge.grade]}${figures ? ` (${figures} of what passes)` : ''}`,
    );
  }
  const hint = closingHint(closesOver);
  if (hint) console.log(`  ${hint}`);
  if (seams.grade === 'look' && !sheet) console.log('  add --sheet place.png to see the place ringed');
  console.log(`  ${repeat.summary}`);
  console.log(`  main colours: ${wordsOfColours(colours)}`);
  if (sheet) console.log(`  sheet: ${sheet}`);
  if (afar) console.log(`  afar: ${afar}`);
}

const NAMES = { jump: 'jump', kink: 'kink', contour: 'outlines' } as const;
