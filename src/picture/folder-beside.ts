import { lstat, mkdir, rename, rm } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { Fault } from '../fault.ts';
import type { PlaceOptions } from './beside.ts';
import { unwritable } from './faults.ts';
import { partName, sweepPartFolders } from './litter.ts';
import { makeFolder, removeFolders } from './make-folder.ts';

/**
 * Fills a folder so that under its name there is the whole of it or what was there before: it is filled beside
 * under another name and renamed. With `overwrite` a folder of that name goes, once the new one is whole, but only
 * where `isOurs` knows it.
 *
 * @param isOurs True for a folder that may be replaced, e.g. because a file of ours stands in it.
 * @throws Fault (output) where it cannot be written or the name is taken; Fault (cancelled) where `signal` was
 *   aborted. Nothing is then left.
 */
export async function fillFolderBeside<Result>(
  path: string,
  { overwrite = false, signal, isOurs }: PlaceOptions & { isOurs(folder: string): Promise<boolean> },
  fill: (beside: string) => Promise<Result>,
): Promise<Result> {
  const target = resolve(path);
  await refuseFolder(path, overwrite, isOurs);
  const made = await makeFolder(dirname(target));
  const beside = join(dirname(target), partName());
  try {
    await sweepPartFolders(dirname(target));
    await mkdir(beside);
    const result = await fill(beside);
    if (signal?.aborted) throw stopped(path);
    await refuseFolder(path, overwrite, isOurs);
    if (await isThere(target)) await renameOver(beside, target);
    else await rename(beside, target);
    return result;
  } catch (cause) {
    await rm(beside, { recursive: true, force: true });
    await removeFolders(made);
    throw Fault.is(cause) ? cause : unwritable(path, cause);
  }
}

/** Gives what was made beside the name of a file or folder that is there, which goes once it has it. */
export async function renameOver(beside: string, target: string): Promise<void> {
  const old = join(dirname(target), partName());
  await rename(target, old);
  try {
    await rename(beside, target);
  } catch (cause) {
    await rename(old, target);
    throw cause;
  }
  await rm(old, { recursive: true, force: true });
}

async function refuseFolder(
  path: string,
  overwrite: boolean,
  isOurs: (folder: string) => Promise<boolean>,
): Promise<void> {
  if (!(await isThere(path))) return;
  if (overwrite && (await isOurs(path))) return;
  throw new Fault({
    kind: 'output',
    expected: 'a name that is free',
    subject: path,
    received: overwrite
      ? 'something of that name that was not written by this command'
      : 'something of that name',
    remedy: overwrite
      ? 'Give another name with --out.'
      : 'Add --overwrite to replace it, or give another name with --out.',
  });
}

function isThere(path: string): Promise<boolean> {
  return lstat(path).then(
    () => true,
    () => false,
  );
}

function stopped(path: string): Fault {
  return new Fault({
    kind: 'cancelled',
    expected: 'the folder to be written',
    subject: path,
    received: 'a request to stop',
    saying: `${path} was not finished: it was stopped.`,
    remedy: 'Nothing was written.',
  });
}
