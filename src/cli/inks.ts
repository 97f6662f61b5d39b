import { basename, extname } from 'node:path';
import type { Command } from 'commander';
import { drawInkCurve } from '../collection/sheet/ink-curve.ts';
import { drawShadeCard } from '../collection/sheet/shade-card.ts';
import { parseHex } from '../colour/hex.ts';
import { Fault } from '../fault.ts';
import { type InksDrawings, inksOfTile, MOST_REDUCED } from '../host/ink/tile-inks.ts';
import type { Layout } from '../repeat/layout.ts';
import { parseDensity, parseSize, type Size } from '../repeat/length.ts';
import { countWords, inksJson, printInks, sizeWords } from './inks-words.ts';
import { jsonOption, layoutOption } from './options.ts';
import { runLong } from './run-long.ts';

interface InksFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly count?: number;
  readonly ground?: string;
  readonly card?: string;
  readonly out?: string;
  readonly draw?: string;
  readonly curve?: string;
  readonly show?: string;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter inks sprig.png --layout drop:1/2
  tenter inks painting.tif --curve curve.png
  tenter inks painting.tif --count 6 --ground "#f3ead8" --draw card.png
  tenter inks sprig.png --card sprig.card.json --show off.png

A flat design has the colours of its plain areas; what lies between them at soft edges is a mix. A painted one is reduced
to --count colours, the ground among them, or to as many as come near enough; --curve draws how near each number comes.
The card is a JSON file (presets/card.schema.json): change names, colours, order of printing and notes in it as you
like; with --card the picture is then measured by it, and nothing is found anew.`;

/** Adds `tenter inks`. */
export function addInks(program: Command): void {
  program
    .command('inks')
    .description('Finds the inks of an artwork, how much of each there is, and writes them as a shade card.')
    .argument('<picture>', 'one tile: PNG, JPEG, WebP or TIFF')
    .addOption(layoutOption())
    .option('--size <size>', 'size of the tile, for areas in cm2, e.g. 320x320mm', parseSize)
    .option('--dpi <density>', 'pixel density of the tile, e.g. 300dpi', parseDensity)
    .option('--count <number>', `how many colours, the ground among them: 2 to ${MOST_REDUCED}`, parseCount)
    .option('--ground <colour>', 'the colour of the ground, #rrggbb; found where absent', parseGround)
    .option('--card <file>', 'measure by this shade card, and find none')
    .option('--out <file>', 'where to write the card; default NAME.card.json after the picture')
    .option('--draw <file>', 'draw the card as a picture')
    .option('--curve <file>', 'draw how far off 2 to 16 colours are')
    .option('--show <file>', 'draw where mixes of the inks are off, and how far')
    .option('--overwrite', 'replace these files if they are there')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action((picture: string, flags: InksFlags) => inks(picture, flags));
}

async function inks(picture: string, flags: InksFlags): Promise<void> {
  const { layout, size, dpi: density, json, ...rest } = flags;
  const out = flags.out ?? `${basename(picture, extname(picture))}.card.json`;
  if (flags.card !== undefined) refuseBesideCard(flags);
  const report = await runLong({ json }, ({ onProgress, signal }) =>
    inksOfTile({ picture, layout, size, density, ...rest, out }, DRAWINGS, { onProgress, signal }),
  );
  if (json) console.log(JSON.stringify(inksJson(picture, layout, report), null, 2));
  else printInks(picture, layout, report);
}

const DRAWINGS: InksDrawings = {
  card: (report) =>
    drawShadeCard({
      title: report.card.name,
      facts: `${countWords(report)}; ${sizeWords(report)}`,
      inks: report.areas,
    }),
  curve: (report) =>
    drawInkCurve(
      report.card.name,
      `How far mixes are from the picture (CIEDE2000), by the number of colours; the card has ${report.card.inks.length}.`,
      report.curve,
      report.card.inks.length,
    ),
};

/** What finds inks has no meaning beside a card that says them. */
function refuseBesideCard(flags: InksFlags): void {
  const [option] = (['count', 'ground', 'out', 'curve'] as const).filter((name) => flags[name] !== undefined);
  if (option === undefined) return;
  throw new Fault({
    kind: 'usage',
    expected: `either --card or --${option}`,
    subject: 'tenter inks',
    received: 'both',
    remedy: 'With --card the inks are those of the card, and none is written: leave out one of the two.',
  });
}

function parseCount(text: string): number {
  const count = Number(text);
  if (Number.isInteger(count) && count >= 2 && count <= MOST_REDUCED) return count;
  throw new Fault({
    kind: 'usage',
    expected: `a whole number from 2 to ${MOST_REDUCED}`,
    subject: '--count',
    received: `"${text}"`,
    remedy: 'Say how many colours the card is to have, the ground among them.',
  });
}

function parseGround(text: string): string {
  parseHex(text, '--ground');
  return text;
}
