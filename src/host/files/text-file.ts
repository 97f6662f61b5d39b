import { Fault } from '../../fault.ts';
import { reasonOf } from '../../picture/faults.ts';
import { remedyOfMissing } from '../../picture/near-file.ts';
import { gather, readRegularFile } from '../../picture/regular-file.ts';

/** What a text should be, for messages, and how long it may be. */
export interface TextWishes {
  /** E.g. `a recipe (a JSON file)`. */
  readonly expected: string;
  readonly remedy?: string;
  /** Bytes; 16 MB where absent. */
  readonly most?: number;
}

/** Larger than a list of ten thousand tiles; a picture given by mistake is not searched for faults. */
const MOST_BYTES = 16e6;

/**
 * The one way to read a text of the user's: a file and nothing else, of 16 MB at most unless more is
 * wished for, in UTF-8. A byte order mark is taken off.
 *
 * @throws Fault (input) for whatever else there is under that name.
 */
export function readTextFile(path: string, wishes: TextWishes): Promise<string> {
  return readText(path, wishes, (most) => readRegularFile(path, most));
}

/**
 * The same for a text that comes in by itself, such as standard input.
 *
 * @param name What it is called in messages.
 */
export function readTextStream(
  stream: AsyncIterable<Uint8Array>,
  name: string,
  wishes: TextWishes,
): Promise<string> {
  return readText(name, wishes, (most) => gather(stream, most));
}

async function readText(
  subject: string,
  { expected, remedy = 'Check the path.', most = MOST_BYTES }: TextWishes,
  read: (most: number) => Promise<Buffer>,
): Promise<string> {
  try {
    return decodeUtf8(await read(most));
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    const isMissing = code === 'ENOENT';
    throw new Fault({
      kind: 'input',
      expected,
      subject,
      received: isMissing ? 'no such file' : reasonOf(cause),
      remedy: isMissing ? remedyOfMissing(subject, { otherwise: remedy }) : remedy,
      cause,
    });
  }
}

function decodeUtf8(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Error('text that is not UTF-8');
  }
}
