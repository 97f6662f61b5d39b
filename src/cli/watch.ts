import { existsSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import type { Command } from 'commander';
import { Fault } from '../fault.ts';
import { FileWatch } from '../host/author/file-watch.ts';
import { drawPreview, type Preview, type PreviewRequest } from '../host/author/preview.ts';
import { requireConsent } from '../host/plugins/consent.ts';
import { findPlaces } from '../host/plugins/places.ts';
import { openShelf } from '../host/plugins/shelf.ts';
import { groundFor } from '../render/ground.ts';
import { lightOf } from '../render/light-words.ts';
import { askOnTerminal } from './ask.ts';
import { assignedValues } from './assigned.ts';
import { describePreview } from './describe-preview.ts';
import { addWatchFlags, limitsOf, type WatchFlags } from './options.ts';
import { ownLines } from './own-lines.ts';
import { onStopSignal } from './stop-signals.ts';
import { supervise, supervisedAs } from './supervise.ts';

const EXAMPLES = `
Examples:
  tenter watch ./frosted-glass
  tenter watch ./frosted-glass --tile sprig.png --size 64x64mm --layout drop:1/2
  tenter watch ./frosted-glass --preset windless --set spacing=20
  tenter watch ./frosted-glass --open

Every save of a source or preset is drawn; what cannot be drawn is told, and the last picture stands.
Ctrl-C ends it.`;

/** Seconds without progress after which a drawing is given up: an author waits less long than a printer. */
const TIME_LIMIT = 10;

/** Adds `tenter watch`. */
export function addWatch(program: Command): void {
  const command = program
    .command('watch')
    .description('Watches the folder of an effect and draws a preview of it with every save.')
    .argument('<folder>', 'the folder of the effect');
  addWatchFlags(command, TIME_LIMIT).addHelpText('after', EXAMPLES).action(watchFolder);
}

async function watchFolder(folder: string, flags: WatchFlags): Promise<void> {
  // Loaded here: a watch without a page needs no server.
  if (flags.open) return (await import('./watch-open.ts')).watchOnPage(folder, flags, TIME_LIMIT);
  const role = supervisedAs();
  if (role === undefined) {
    process.exitCode = await supervise((cause) =>
      tell(`the whole process was ended by the effect (${cause})`),
    );
    return;
  }
  const places = await findPlaces([folder], process.cwd());
  await requireConsent(places, { trust: flags.trust, ask: askOnTerminal() });
  const request = await requestOf(folder, flags, role);
  const files = await FileWatch.open(folder);
  const stopped = new Promise<undefined>((done) => {
    onStopSignal(() => done(undefined));
    process.once('disconnect', () => done(undefined));
  });
  const where = relative(process.cwd(), request.out) || request.out;
  console.log(`watching ${folder}; the picture is ${where}; Ctrl-C ends it`);
  await loop(request, files, stopped, role === 'again');
  files.close();
  process.exit(0);
}

async function requestOf(folder: string, flags: WatchFlags, role: string): Promise<PreviewRequest> {
  const out = resolve(flags.out ?? join(folder, 'preview.png'));
  if (role === 'first' && flags.out !== undefined && existsSync(out) && !flags.overwrite) {
    throw new Fault({
      kind: 'output',
      expected: 'a file that is not there yet',
      subject: flags.out,
      received: 'one that is',
      saying: `${flags.out} is there already.`,
      remedy: 'Add --overwrite to have it drawn over with every save.',
    });
  }
  const { effects } = await openShelf();
  const { effect, layout, size, tile, preset, paper, seed, dpi: density, workers } = flags;
  return {
    ...{ folder, effect, layout, size, tile, preset, paper, seed, density, workers, out },
    light: lightOf(flags.light),
    quality: flags.finished ? 'finished' : 'sketch',
    taken: [...effects.keys()],
    values: (shelf, name) => assignedValues(shelf, name, flags.set),
    ground: ({ effect: { planes } }) => flags.ground ?? groundFor({ planes }, paper),
    limits: { seconds: TIME_LIMIT, ...limitsOf(flags) },
  };
}

/** Draws, and draws again with every change; a change ends the drawing that is under way. */
async function loop(
  request: PreviewRequest,
  files: FileWatch,
  stopped: Promise<undefined>,
  waitFirst: boolean,
): Promise<void> {
  let before: Preview | undefined;
  let changed: string[] | undefined = waitFirst ? await Promise.race([files.next(), stopped]) : [];
  while (changed) {
    const drawing = new AbortController();
    const next = Promise.race([files.next(), stopped]);
    void next.then(() => drawing.abort());
    const began = Date.now();
    before = await drawOnce(request, describeChange(request.folder, changed), before, drawing.signal);
    await files.include(before?.files ?? [], began);
    changed = await next;
  }
}

async function drawOnce(
  request: PreviewRequest,
  what: string,
  before: Preview | undefined,
  signal: AbortSignal,
): Promise<Preview | undefined> {
  try {
    const preview = await drawPreview(request, signal);
    tell(`${what}${describePreview(preview, before)}`);
    return preview;
  } catch (error) {
    if (!signal.aborted) tell(`${what}not drawn\n  ${wordsOf(error)}\n  the last picture stands; save again`);
    return before;
  }
}

function wordsOf(error: unknown): string {
  if (Fault.is(error)) return [error.message, ...ownLines(error)].join('\n  ');
  return `a fault of tenter itself; please report it: ${error instanceof Error ? error.stack : error}`;
}

function describeChange(folder: string, changed: readonly string[]): string {
  if (changed.length === 0) return '';
  const names = changed.map((file) => relative(folder, file)).slice(0, 3);
  const more = changed.length > names.length ? ` and ${changed.length - names.length} more` : '';
  return `${names.join(', ')}${more} changed: `;
}

function tell(text: string): void {
  console.log(`${new Date().toTimeString().slice(0, 8)}  ${text}`);
}
