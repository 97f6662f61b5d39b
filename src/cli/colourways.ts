import { basename, dirname, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import {
  colourwayScale,
  colourwayWindow,
  type ShownColourway,
  writeColourwaySheet,
} from '../collection/sheet/index.ts';
import type { Frame } from '../colour/frame.ts';
import { hexOfBytes } from '../colour/hex.ts';
import { Fault } from '../fault.ts';
import { type ColourwayFile, readColourways } from '../host/ink/colourway-file.ts';
import { type ColourwaysReport, writeColourways } from '../host/ink/write-colourways.ts';
import { type Colourway, colourwayDoubts } from '../ink/index.ts';
import { makeFolder } from '../picture/make-folder.ts';
import { sizeOfTile } from '../render/tile-grid.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { formatSize, parseDensity, parseSize, type Size } from '../repeat/length.ts';
import { wordsOfDoubt } from './colourway-words.ts';
import { formatBytes } from './figures.ts';
import { countWords } from './inks-words.ts';
import { collect, jsonOption, layoutOption } from './options.ts';
import { runLong } from './run-long.ts';

interface ColourwaysFlags {
  readonly ways: string;
  readonly card?: string;
  readonly only: readonly string[];
  readonly out: string;
  readonly sheet?: string;
  readonly pictures: boolean;
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter colourways sprig.png --ways sprig.ways.json
  tenter colourways sprig.png --ways sprig.ways.json --only dusk --out strike-offs
  tenter colourways sprig.png --ways sprig.ways.json --sheet sprig-ways.png --no-pictures --layout half-drop

The file names a shade card ("tenter inks TILE" writes one) and, for each colourway, a colour for each of its inks:
  { "card": "sprig.card.json", "colourways": { "dusk": { "ground": "#2b2f45", "leaf": "#c6b078" } } }
Every pixel is told apart into the card's inks and mixed again of the new colours; what the card does not explain goes
along, so that the card's own colours give the picture back to the byte. Alpha, bits, density and size stay.`;

/** Adds `tenter colourways`. */
export function addColourways(program: Command): void {
  program
    .command('colourways')
    .description(
      'Recolours an artwork tile to the colourways of a file, and draws a sheet of all side by side.',
    )
    .argument('<tile>', 'the artwork: PNG, JPEG, WebP or TIFF')
    .requiredOption('--ways <file>', 'the file with the colourways')
    .option('--card <file>', 'the shade card; that which the file names where absent')
    .addOption(
      new Option('--only <name>', 'only this colourway; may be given many times')
        .argParser(collect)
        .default([], 'all'),
    )
    .option('--out <folder>', 'where the pictures go, named after the tile and the colourway', '.')
    .option('--sheet <file>', 'draw all of them in repeat side by side with their inks; .png')
    .option('--no-pictures', 'only say what there is to say, and draw the sheet')
    .addOption(layoutOption())
    .option('--size <size>', 'size of one tile, for the sheet and the density', parseSize)
    .option('--dpi <density>', 'pixel density, where the tile states none', parseDensity)
    .option('--overwrite', 'replace these files if they are there')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action((tile: string, flags: ColourwaysFlags) => colourways(tile, flags));
}

async function colourways(tile: string, flags: ColourwaysFlags): Promise<void> {
  const { only, overwrite, json, sheet, size, dpi } = flags;
  if (sheet !== undefined && !/\.png$/i.test(sheet)) throw sheetEnding(sheet);
  const file = await readColourways(flags.ways, flags.card);
  const folder = flags.pictures ? flags.out : undefined;
  for (const path of [folder, sheet && dirname(sheet)])
    if (path !== undefined) await makeFolder(resolve(path));
  const board = sheet === undefined ? undefined : new SheetBoard(tile, file, flags);
  const report = await runLong({ json }, (progress) =>
    writeColourways(
      { tile, file, only, folder, size, density: dpi, overwrite, others: sheet === undefined ? [] : [sheet] },
      { ...progress, onPicture: board && ((way, picture) => board.add(way, picture)) },
    ),
  );
  if (board && sheet !== undefined) await board.write(sheet, overwrite);
  if (json) console.log(JSON.stringify(factsOf(tile, file, report, sheet), null, 2));
  else print(tile, file, report, sheet);
}

/** Gathers windows while the pictures pass by. */
class SheetBoard {
  readonly #tile: string;
  readonly #file: ColourwayFile;
  readonly #flags: ColourwaysFlags;
  readonly #shown: ShownColourway[] = [];
  #scale = 1;
  #facts = '';

  constructor(tile: string, file: ColourwayFile, flags: ColourwaysFlags) {
    this.#tile = tile;
    this.#file = file;
    this.#flags = flags;
  }

  async add(colourway: Colourway, picture: Frame & { readonly pixelsPerMm?: number }): Promise<void> {
    const { layout, size, dpi: density } = this.#flags;
    const sized = sizeOfTile(picture, { size, density, fileDensity: picture.pixelsPerMm }) ?? sizeMissing();
    const repeat = { layout, ...sized.size };
    this.#scale = colourwayScale(repeat, picture.width / repeat.width);
    this.#facts = `${basename(this.#tile)}, ${formatSize(repeat)}, ${formatLayout(layout)}; ${countWords(this.#file)} of the card "${this.#file.card.name}"`;
    const { inks } = this.#file.card;
    const ground = colourway.colours[inks.findIndex(({ kind }) => kind === 'ground')] ?? [255, 255, 255];
    this.#shown.push({
      colourway,
      doubts: colourwayDoubts(this.#file.card, colourway).map(wordsOfDoubt),
      window: await colourwayWindow(picture, repeat, this.#scale, ground),
    });
  }

  async write(path: string, overwrite?: boolean): Promise<void> {
    const { card } = this.#file;
    await writeColourwaySheet(
      path,
      { title: card.name, facts: this.#facts, card, shown: this.#shown, scale: this.#scale },
      overwrite,
    );
  }
}

function print(tile: string, { card }: ColourwayFile, report: ColourwaysReport, sheet?: string): void {
  console.log(`${tile} in ${report.made.length} colourways of the card "${card.name}"`);
  for (const { name, doubts, out, bytes } of report.made) {
    row(name, out === undefined ? 'looked at' : `${out} (${formatBytes(bytes)})`);
    for (const doubt of doubts) row('', wordsOfDoubt(doubt));
  }
  for (const note of report.notes) row('note', note);
  if (sheet !== undefined) row('sheet', sheet);
  for (const warning of report.warnings) console.error(`tenter: warning: ${warning}`);
}

function row(label: string, text: string): void {
  console.log(`  ${label.padEnd(12)} ${text}`);
}

function factsOf(
  tile: string,
  { path, card, cardPath }: ColourwayFile,
  report: ColourwaysReport,
  sheet?: string,
) {
  const { made, width, height, notes, warnings } = report;
  return {
    tile,
    ways: path,
    card: cardPath,
    ...{ widthPx: width, heightPx: height },
    colourways: made.map(({ name, colours, doubts, out, bytes }) => ({
      name,
      inks: Object.fromEntries(card.inks.map((ink, at) => [ink.name, hexOfBytes(colours[at])])),
      doubts: doubts.map((doubt) => ({ ...doubt, words: wordsOfDoubt(doubt) })),
      out,
      bytes: out === undefined ? undefined : bytes,
    })),
    ...{ sheet, notes, warnings },
  };
}

function sheetEnding(sheet: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a file name with the ending .png',
    subject: '--sheet',
    received: `"${sheet}"`,
  });
}

function sizeMissing(): never {
  throw new Fault({
    kind: 'usage',
    expected: 'the size of the repeat',
    subject: '--sheet',
    received: 'nothing, and the tile states no density',
    remedy: 'Add for example --size 640x640mm or --dpi 300.',
  });
}
