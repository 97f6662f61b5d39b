import { Fault } from '../../fault.ts';
import { sha256OfFile, stampOf } from '../../picture/file-hash.ts';

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
