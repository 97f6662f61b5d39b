import type { FileHandle } from 'node:fs/promises';
import { Fault } from '../../fault.ts';
import { reasonOf } from '../../picture/faults.ts';
import { openRegularFile } from '../../picture/regular-file.ts';

/** What a text file should be, for messages. */
export interface TextWishes {
  /** E.g. `a recipe (a JSON file)`. */
  readonly expected: string;
  readonly remedy?: string;
}

/** Larger than a list of ten thousand tiles; a picture given by mistake is not searched for faults. */
const MOST_BYTES = 16e6;

/**
 * The one way to read a text of the user's: a file and nothing else, of 16 MB at most, in UTF-8. A byte
 * order mark is taken off.
 *
 * @throws Fault (input) for whatever else there is under that name.
 */
export async function readTextFile(
  path: string,
  { expected, remedy = 'Check the path.' }: TextWishes,
): Promise<string> {
  try {
    const { file } = await openRegularFile(path);
    try {
      return decodeUtf8(await readWhole(file));
    } finally {
      await file.close();
    }
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    const received = code === 'ENOENT' ? 'no such file' : reasonOf(cause);
    throw new Fault({ kind: 'input', expected, subject: path, received, remedy, cause });
  }
}

/** By reading on and not by its size: what the system makes up as it is read says that it is empty. */
async function readWhole(file: FileHandle): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for (let length = 0; ; ) {
    const { bytesRead, buffer } = await file.read({ buffer: Buffer.alloc(1 << 16) });
    if (bytesRead === 0) return Buffer.concat(pieces);
    pieces.push(buffer.subarray(0, bytesRead));
    length += bytesRead;
    if (length > MOST_BYTES) throw new Error(`more than ${MOST_BYTES / 1e6} MB`);
  }
}

function decodeUtf8(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Error('text that is not UTF-8');
  }
}
