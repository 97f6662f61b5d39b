import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Fault } from '../../../fault.ts';
import { writeBeside } from '../../../picture/beside.ts';
import { readHeader } from '../../../picture/header.ts';
import { readPicture } from '../../../picture/index.ts';
import { partName } from '../../../picture/litter.ts';
import { makeFolder } from '../../../picture/make-folder.ts';
import type { SessionFolder } from '../kept/session-folder.ts';

/** Bytes of one dropped picture: a 16-bit tile of 57 megapixels without compression. */
export const MOST_DROPPED = 512e6;

/** Where a dropped picture lies, and what it was called. */
export interface Dropped {
  readonly path: string;
  readonly name: string;
}

/**
 * Keeps what was dropped onto the page in the session's folder, under a name made of its bytes; the name
 * that it came with is text beside it, and leads nowhere.
 *
 * @throws Fault (input) for whatever `readPicture` refuses, of a large one before it is decoded; nothing is then kept.
 */
export async function keepDropped(
  { opened }: Pick<SessionFolder, 'opened'>,
  name: string,
  bytes: ReadableStream<Uint8Array>,
): Promise<Dropped> {
  await makeFolder(opened);
  const beside = join(opened, partName());
  try {
    const digest = await writeDown(beside, bytes, name);
    const { format } = await readHeader(beside);
    await readPicture(beside);
    const path = join(opened, `${digest}.${format.toLowerCase()}`);
    await rename(beside, path);
    await writeBeside(nameFile(path), { overwrite: true }, (part) => writeFile(part, name));
    return { path, name };
  } catch (error) {
    await rm(beside, { force: true });
    throw Fault.is(error) ? underItsName(error, beside, name) : error;
  }
}

/** What was dropped in sessions before. */
export async function droppedBefore({ opened }: Pick<SessionFolder, 'opened'>): Promise<Dropped[]> {
  const files = await readdir(opened).catch(() => []);
  const pictures = files.filter((file) => /^[0-9a-f]{32}\.(png|jpeg|webp|tiff)$/.test(file));
  return Promise.all(
    pictures.map(async (file) => {
      const path = join(opened, file);
      return { path, name: await readFile(nameFile(path), 'utf8').catch(() => file) };
    }),
  );
}

function nameFile(path: string): string {
  return `${path}.name`;
}

async function writeDown(path: string, bytes: ReadableStream<Uint8Array>, name: string): Promise<string> {
  const digest = createHash('sha256');
  let count = 0;
  await pipeline(
    Readable.fromWeb(bytes as Parameters<typeof Readable.fromWeb>[0]),
    async function* (pieces: AsyncIterable<Uint8Array>) {
      for await (const piece of pieces) {
        count += piece.length;
        if (count > MOST_DROPPED) throw tooLarge(name);
        digest.update(piece);
        yield piece;
      }
    },
    createWriteStream(path, { flags: 'wx' }),
  );
  return digest.digest('hex').slice(0, 32);
}

function tooLarge(name: string): Fault {
  return new Fault({
    kind: 'input',
    expected: `a picture of at most ${MOST_DROPPED / 1e6} MB`,
    subject: name,
    received: 'more',
    remedy: 'Name it on the command line, where there is no such limit: tenter open PICTURE.',
  });
}

function underItsName(fault: Fault, path: string, name: string): Fault {
  const plain = (text: string | undefined) => text?.replaceAll(path, () => name);
  const { saying, remedy, ...rest } = fault.toJSON();
  return new Fault({ ...rest, subject: plain(rest.subject)!, saying: plain(saying), remedy: plain(remedy) });
}
