import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Command } from 'commander';
import {
  type Book,
  bookOfFolder,
  bookOfPlan,
  makeSheets,
  PICTURE_ROOM,
  type SheetsMade,
} from '../collection/sheet/index.ts';
import { Fault } from '../fault.ts';
import { addPlanFlags, openPlan, type PlanFlags } from './collect-options.ts';
import { EXIT } from './exit-codes.ts';
import { formatBytes } from './figures.ts';
import { row } from './row.ts';
import { untilStopped } from './stop-signals.ts';

interface SheetFlags extends PlanFlags {
  readonly to?: string;
  readonly pageSize?: number;
  readonly page: boolean;
  readonly sheets: boolean;
}

const NOTES = `
The collection may also be the folder of a run: what its report tells is then shown, and neither the tiles nor the
effects are needed. On the page you choose favourites and copy out their list; "tenter collect run" takes it:
  tenter collect run spring.json --only favourites.txt --dpi 300`;

/** Adds `tenter collect sheet`. */
export function addCollectSheet(collect: Command): void {
  const command = collect
    .command('sheet')
    .summary('make contact sheets and a page to choose from')
    .description(
      'Makes contact sheets of what is rendered, for each tile and for all, and one page to choose from that opens from disk.',
    );
  addPlanFlags(command)
    .option('--to <folder>', 'where they go; default "sheets" in the output folder')
    .option(
      '--page-size <amount>',
      `room for all pictures in the page, e.g. 8MB; more shows finer pictures; default ${PICTURE_ROOM / 1e6}MB`,
      parsePageSize,
    )
    .option('--no-page', 'only the contact sheets')
    .option('--no-sheets', 'only the page')
    .addHelpText('after', NOTES)
    .action(sheet);
}

async function sheet(place: string, flags: SheetFlags): Promise<void> {
  const book = await bookOf(place, flags);
  const folder = resolve(flags.to ?? join(book.folder, 'sheets'));
  const shows = process.stderr.isTTY && !flags.json;
  const made = await untilStopped((signal) =>
    makeSheets(book, {
      folder,
      drawsSheets: flags.sheets,
      writesPage: flags.page,
      pictureRoom: flags.pageSize,
      signal,
      onSwatch: (done, all) => {
        if (shows) process.stderr.write(`\r${done} of ${all} swatches${done === all ? '\n' : ''}`);
      },
    }),
  );
  if (flags.json) console.log(JSON.stringify(made, null, 2));
  else print(book, made, folder);
  if (made.empty.length > 0) process.exitCode = EXIT.partly;
}

async function bookOf(place: string, flags: SheetFlags): Promise<Book> {
  const isFolder = await stat(place).then(
    (found) => found.isDirectory(),
    () => false,
  );
  if (!isFolder) {
    const { plan, items } = await openPlan(place, flags);
    return bookOfPlan(plan, items, flags.verify);
  }
  const { only, dpi, shard, out } = flags;
  if (only.length > 0 || dpi !== undefined || shard || out !== undefined) {
    throw new Fault({
      kind: 'usage',
      expected: 'the collection file',
      subject: '--only, --dpi, --shard or --out',
      received: `the folder ${place}`,
      remedy: 'Give the file to choose from it; a folder is shown as its report tells.',
    });
  }
  return bookOfFolder(place);
}

const MOST_EMPTY_SHOWN = 20;

function print({ summary }: Book, { sheets, page, shown, empty }: SheetsMade, folder: string): void {
  console.log(summary);
  row('shown', `${shown} swatches${empty.length ? `; ${empty.length} are empty` : ''}`);
  if (sheets.length > 0) row('sheets', `${sheets.length} in ${folder}`);
  if (page) {
    const { path, bytes, pictureBytes, pictureRoom } = page;
    row('page', `${path}, ${formatBytes(bytes)}`);
    row('', `its pictures take ${formatBytes(pictureBytes)} of ${formatBytes(pictureRoom)} (--page-size)`);
  }
  for (const { name, reason } of empty.slice(0, MOST_EMPTY_SHOWN)) row('empty', `${name}: ${reason}`);
  if (empty.length > MOST_EMPTY_SHOWN) row('', `and ${empty.length - MOST_EMPTY_SHOWN} more`);
}

/** Reads `8MB` or `1.5 MB`. @returns Bytes. @throws Fault (usage). */
function parsePageSize(text: string): number {
  const match = /^(\d+(?:\.\d+)?)\s*mb$/i.exec(text.trim());
  const bytes = match ? Number(match[1]) * 1e6 : 0;
  // A browser that opens more than this from disk stands still for long.
  if (bytes > 0 && bytes <= 500e6) return bytes;
  throw new Fault({
    kind: 'usage',
    expected: 'an amount up to 500MB, e.g. 8MB',
    subject: '--page-size',
    received: `"${text}"`,
  });
}
