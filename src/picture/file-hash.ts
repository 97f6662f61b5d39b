import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { Fault } from '../fault.ts';
import { openRegularFile } from './regular-file.ts';

/** SHA-256 (FIPS 180-4) of a file, read piece by piece. @throws the system's error; see `openRegularFile` for what is no file. */
export async function sha256OfFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  const { file } = await openRegularFile(path);
  await pipeline(file.createReadStream({ highWaterMark: 1 << 20 }), hash);
  return hash.digest('hex');
}

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

/** Whatever changes in a file changes one of these; the system sets the last itself. */
export async function stampOf(path: string): Promise<string> {
  const found = await stat(path, { bigint: true }).catch(() => undefined);
  return found ? [found.dev, found.ino, found.size, found.mtimeNs, found.ctimeNs].join() : 'missing';
}
