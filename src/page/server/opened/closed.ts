import { createReadStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { z } from 'zod';
import { temporaryPrefix } from '../../../picture/litter.ts';
import { trimNumber } from '../../../repeat/length.ts';
import type { OpenedTile } from '../../words/begin.ts';
import type { CloseOrder } from '../../words/close.ts';
import type { Desk } from '../desk.ts';
import { pathWord, sizeWord } from '../saving/command-words.ts';
import { runCommand } from '../saving/run-command.ts';
import { keepDropped } from './dropped.ts';

/** What a name is called without: that it is a file, and that it was closed before. */
const KNOWN_ENDS = /(\.(png|jpe?g|webp|tiff?)|, made to close)$/i;

/** The exit code for a picture that does not close even then. */
const STILL_OPEN = 1;

/** Of what the command says, what is told on the page. */
const closeShape = z.object({
  tile: z.object({ widthMm: z.number(), heightMm: z.number() }),
  change: z.object({ share: z.number() }).optional(),
});

/**
 * Makes an artwork close over a layout, as the command does, and opens the result beside it.
 *
 * @throws Fault as the command told it; of kind `cancelled` where `signal` asked. Nothing is then opened.
 */
export async function closeArtwork(desk: Desk, order: CloseOrder, signal: AbortSignal): Promise<OpenedTile> {
  const { tile, layout, size } = order;
  const { name } = desk.artworks.tileOf(tile);
  const folder = await mkdtemp(temporaryPrefix());
  const out = join(folder, 'closed.png');
  try {
    const path = pathWord(desk.artworks.pathOf(tile));
    const words = ['close', path, '--layout', layout, '--size', sizeWord(size), '--out', out];
    const said = await runCommand(words, {
      ...{ trust: desk.trust, signal, onProgress: () => {} },
      found: STILL_OPEN,
    });
    const { tile: made, change } = closeShape.parse(said);
    const called = `${name.replace(KNOWN_ENDS, '')}, made to close`;
    const kept = await keepDropped(desk.folder, `${called}.png`, bytesOf(out));
    const closed = await desk.artworks.admit(kept.path, {
      name: called,
      layout,
      size: { width: made.widthMm, height: made.heightMm },
      notes: [changeWords(change)],
    });
    await desk.artworks.picture(closed.id);
    return desk.artworks.tileOf(closed.id);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function bytesOf(path: string): ReadableStream<Uint8Array> {
  return Readable.toWeb(createReadStream(path)) as ReadableStream<Uint8Array>;
}

function changeWords(change: { readonly share: number } | undefined): string {
  if (!change) return 'It closed already: nothing is changed.';
  return `Made to close: ${trimNumber(100 * change.share, 1)} % of it changed, all of that along its edges; the rest is as it was.`;
}
