import { stat } from 'node:fs/promises';
import { Fault } from '../../fault.ts';
import { sha256OfFile } from './hash.ts';

/** Readings of a file that is saved again and again before it is given up. */
const TRIES = 5;

/**
 * Reads a file together with the hash of the very bytes that were read: somebody may save it at any
 * moment. Where its times or its size tell that it changed meanwhile, it is read again.
 *
 * @throws Fault (input) for a file that never keeps still; what `read` throws, of a file that did.
 */
export async function readSteadily<T>(
  path: string,
  read: () => Promise<T>,
): Promise<{ result: T; sha256: string }> {
  for (let tries = 0; tries < TRIES; tries++) {
    const before = await stampOf(path);
    const reading = await read().then(
      (result) => ({ result }),
      (error: unknown) => ({ error }),
    );
    const sha256 = 'result' in reading ? await sha256OfFile(path) : '';
    if ((await stampOf(path)) !== before) continue;
    if ('error' in reading) throw reading.error;
    return { result: reading.result, sha256 };
  }
  throw new Fault({
    kind: 'input',
    expected: 'a file that keeps still while it is read',
    subject: path,
    received: `one that was saved during each of ${TRIES} tries`,
    remedy: 'Let its saving come to an end, then run the same command again.',
  });
}

/** A file of a plan, with the hash that its renders are to be recorded under. */
export interface PlannedFile {
  readonly path: string;
  readonly sha256: string;
}

/**
 * Does work that reads files a plan was made from: what comes of it came of their planned bytes.
 *
 * @throws Fault (input) where one is no longer what was planned, or was touched meanwhile: then it may do
 *   better at once. What `work` throws, where all of them kept still.
 */
export async function whileUnchanged<T>(files: readonly PlannedFile[], work: () => Promise<T>): Promise<T> {
  const before = await Promise.all(files.map(({ path }) => stampOf(path)));
  const check = async (cause?: unknown) => {
    for (const [index, { path, sha256 }] of files.entries()) {
      const isPlanned = (await sha256OfFile(path).catch(() => '')) === sha256;
      if (!isPlanned) throw changed(path, 'one that was saved since', cause);
      if ((await stampOf(path)) === before[index]) continue;
      throw changed(
        path,
        'one that was being saved',
        Object.assign(new Error('touched'), { code: 'EAGAIN' }),
      );
    }
  };
  const result = await work().catch(async (cause) => {
    await check(cause);
    throw cause;
  });
  await check();
  return result;
}

/** Whatever changes in a file changes one of these; the system sets the last itself. */
async function stampOf(path: string): Promise<string> {
  const found = await stat(path, { bigint: true }).catch(() => undefined);
  return found ? [found.dev, found.ino, found.size, found.mtimeNs, found.ctimeNs].join() : 'missing';
}

function changed(path: string, received: string, cause?: unknown): Fault {
  return new Fault({
    kind: 'input',
    expected: 'the file as it was when this run was planned',
    subject: path,
    received,
    remedy: 'What was made of it was not kept. Run the same command again to make it from the new file.',
    cause,
  });
}
