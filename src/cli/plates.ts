import { basename, extname } from 'node:path';
import { type Command, Option } from 'commander';
import { Fault } from '../fault.ts';
import { readCard } from '../host/ink/card-file.ts';
import { type PlateDots, type PlateReport, writePlates } from '../host/ink/write-plates.ts';
import { type PlatePacking, readPicture } from '../picture/index.ts';
import { sizeOfTile } from '../render/tile-grid.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { formatSize, parseDensity, parseSize, type Size, trimNumber } from '../repeat/length.ts';
import { formatBytes } from './figures.ts';
import { jsonOption, layoutOption } from './options.ts';
import { namesOf, parseAngle, parseRuling, parseTrap } from './plate-options.ts';
import { row } from './row.ts';
import { runLong } from './run-long.ts';

interface PlateFlags {
  readonly card: string;
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly bits?: '1' | '8';
  readonly trap?: number;
  readonly overprint?: readonly string[];
  readonly dots?: PlateDots['shape'];
  readonly ruling?: number;
  readonly angle?: number;
  readonly packing: PlatePacking;
  readonly oneFile?: boolean;
  readonly marks?: boolean;
  readonly proof?: boolean;
  readonly out?: string;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter plates sprigs.png --card sprigs.card.json --layout half-drop
  tenter plates sprigs.png --card sprigs.card.json --bits 1 --trap 0.2mm --proof
  tenter plates sprigs.png --card sprigs.card.json --bits 1 --dots round --ruling 24/cm --angle 22
  tenter plates sprigs.png --card sprigs.card.json --one-file

One plate per ink of the card; the ground has none. In a plate the greater the sample, the more ink; opened anywhere,
ink is dark. With --trap what is printed first goes on under what hides it, and a lighter ink under a darker one that
lets light through; against bare ground nothing spreads. An ink is knocked out of those under it, unless --overprint
names it: those before it then go on under it as they stand nearest. The folder is written whole or not at all, with a plates.json.`;

/** Adds `tenter plates`. */
export function addPlates(program: Command): void {
  program
    .command('plates')
    .description('Separates a tile into one plate per ink of its shade card.')
    .argument('<picture>', 'one tile: PNG, JPEG, WebP or TIFF')
    .requiredOption('--card <file>', 'the shade card: "tenter inks" writes it')
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile, e.g. 640x640mm', parseSize)
    .option('--dpi <density>', 'pixel density, e.g. 300dpi', parseDensity)
    .addOption(
      new Option('--bits <bits>', '8 for areas, 1 for dots; 8 where no dots are asked').choices(['1', '8']),
    )
    .option('--trap <width>', 'how far inks go on under those they meet, e.g. 0.2mm', parseTrap)
    .option(
      '--overprint <names>',
      'inks of the card that are printed over those before them, not beside them, e.g. "shadow,line"',
      namesOf,
    )
    .addOption(
      new Option('--dots <shape>', 'how 1-bit dots stand; default scattered').choices([
        'scattered',
        'lines',
        'round',
      ]),
    )
    .option('--ruling <number>', 'lines or rows of dots, e.g. 24/cm', parseRuling)
    .option('--angle <degrees>', 'of the rows, from the horizontal, anticlockwise', parseAngle)
    .addOption(
      new Option('--packing <how>', 'how strips are packed, all without loss')
        .choices(['none', 'packbits', 'deflate'])
        .default('packbits'),
    )
    .option('--marks', 'crosses and lines to register by, in a margin of 10 mm round the repeat')
    .option('--one-file', 'all plates as separated inks in one TIFF')
    .option('--proof', 'also a picture put together again from the plates, and how far off it is')
    .option('--out <folder>', 'the folder to write; default named after the picture')
    .option('--overwrite', 'replace a folder of plates of that name')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action((picture: string, flags: PlateFlags) => plates(picture, flags));
}

async function plates(path: string, flags: PlateFlags): Promise<void> {
  const {
    layout,
    size,
    dpi: density,
    trap,
    overprint,
    packing,
    oneFile,
    proof,
    overwrite,
    marks,
    json,
  } = flags;
  const dots = dotsOf(flags);
  const card = await readCard(flags.card);
  const out = flags.out ?? `${basename(path, extname(path))}-plates`;
  const report = await runLong({ json }, async (progress) => {
    const picture = await readPicture(path);
    const sized = sizeOfTile(picture, { size, density, fileDensity: picture.pixelsPerMm });
    const bits = flags.bits === undefined ? (dots ? 1 : 8) : (Number(flags.bits) as 1 | 8);
    return writePlates(
      {
        ...{ picture, card, layout, size: sized?.size, bits, trap, overprint, dots },
        ...{ packing, oneFile, proof, out, overwrite, marks },
      },
      progress,
    );
  });
  if (json) console.log(JSON.stringify(report, null, 2));
  else print(path, layout, report);
}

function print(path: string, layout: Layout, report: PlateReport): void {
  const { size, widthPx, heightPx, bits, ruling, proof, trap } = report;
  console.log(`${path} in layout ${formatLayout(layout)}`);
  row('tile', `${size ? `${formatSize(size)}, ` : ''}${widthPx} x ${heightPx} px, ${bits} bit`);
  if (ruling)
    row(
      'dots',
      `${trimNumber(ruling.perCm, 2)} per cm at ${trimNumber(ruling.angle, 1)} degrees, which closes`,
    );
  if (trap !== undefined) row('trap', `${trimNumber(trap, 3)} mm`);
  if (report.marginPx)
    row(
      'marks',
      `${report.marginPx} px round the repeat: each file is ${widthPx + 2 * report.marginPx} x ${heightPx + 2 * report.marginPx} px`,
    );
  if (report.overprint) row('over', report.overprint.join(', '));
  for (const { order, name, coverage, cm2, file, bytes } of report.plates)
    row(
      `${order}`,
      `${name}: ${trimNumber(coverage, 1)} %${cm2 === undefined ? '' : `, ${trimNumber(cm2, 1)} cm2`}, ${file} (${formatBytes(bytes)})`,
    );
  row('inks', `${trimNumber(report.totalCoverage, 1)} % of the tile, all added up`);
  if (proof) {
    const { mean, p95, worst } = proof.difference;
    const from =
      proof.seenFrom === undefined ? '' : `, as seen from ${trimNumber(proof.seenFrom / 1000, 1)} m`;
    row(
      'proof',
      `${proof.file}: CIEDE2000 ${trimNumber(mean, 2)} on average, 95 of 100 within ${trimNumber(p95, 2)}, ${trimNumber(worst, 2)} at worst${from}`,
    );
  }
  row('written', report.folder);
  for (const warning of report.warnings) console.error(`tenter: warning: ${warning}`);
}

function dotsOf({ dots, ruling, angle }: PlateFlags): PlateDots | undefined {
  if (dots === 'lines' || dots === 'round') {
    if (ruling === undefined)
      throw usage('a ruling', `--dots ${dots}`, 'none', 'Add for example --ruling 24/cm --angle 22.');
    return { shape: dots, perCm: ruling, angle: angle ?? 0 };
  }
  if (ruling !== undefined || angle !== undefined)
    throw usage(
      '--dots lines or round',
      '--ruling and --angle',
      dots ?? 'none',
      'Scattered dots have neither.',
    );
  return dots && { shape: dots };
}

function usage(expected: string, subject: string, received: string, remedy: string): Fault {
  return new Fault({ kind: 'usage', expected, subject, received, remedy });
}
