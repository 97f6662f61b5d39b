import { link, lstat, open, realpath, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Fault } from '../fault.ts';
import { unwritable } from './faults.ts';
import { partName, sweepParts } from './litter.ts';
import { makeFolder, removeFolders } from './make-folder.ts';

export interface PlaceOptions {
  /** Replace a file of that name. */
  readonly overwrite?: boolean;
  /** Once aborted nothing appears under the name, and nothing is left beside it. */
  readonly signal?: AbortSignal;
}

/** File systems that have no hard links answer with one of these. */
const NO_LINKS: readonly unknown[] = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'];

/**
 * Writes a file so that under its name there is the whole of it or what was there before: it is
 * filled beside under another name, brought to the disk, and renamed. Folders on the way are made,
 * and go again where nothing comes of it. A link is followed, so that it stays a link.
 *
 * @param fill Fills the file at the path that it is given.
 * @throws Fault (output) where it cannot be written or the name is taken, also where it was taken
 *   in the meantime; Fault (cancelled) where `signal` was aborted.
 */
export async function writeBeside<Result>(
  path: string,
  place: PlaceOptions,
  fill: (beside: string) => Promise<Result>,
): Promise<Result> {
  const [result] = await writeAllBeside([{ path, fill }], place);
  return result;
}

/** A file that is to be written, and what fills it at the path that it is given. */
export interface Filling<Result> {
  readonly path: string;
  readonly fill: (beside: string) => Promise<Result>;
}

/**
 * Writes several files as `writeBeside` writes one, all or none: none gets its name before all are
 * whole, and where one then cannot have it, those that had theirs go again, unless they replaced others.
 */
export async function writeAllBeside<Result>(
  files: readonly Filling<Result>[],
  { overwrite = false, signal }: PlaceOptions,
): Promise<Result[]> {
  for (const { path } of files) {
    checkSignal(path, signal);
    await refuseTaken(path, overwrite);
  }
  const undo: (() => Promise<unknown>)[] = [];
  let path = '';
  try {
    const filled: { beside: string; target: string; path: string; result: Result }[] = [];
    for (const file of files) {
      path = file.path;
      const target = await realpath(path).catch(() => path);
      const folder = dirname(target);
      const made = await makeFolder(folder);
      undo.unshift(() => removeFolders(made));
      const beside = join(folder, partName());
      undo.unshift(() => rm(beside, { force: true }));
      await sweepParts(folder);
      await create(beside);
      const result = await file.fill(beside);
      await bringToDisk(beside);
      filled.push({ beside, target, path, result });
    }
    for (const { beside, target, path: name } of filled) {
      path = name;
      checkSignal(path, signal);
      await putInPlace(beside, target, overwrite);
      if (!overwrite) undo.unshift(() => rm(target, { force: true }));
    }
    return filled.map(({ result }) => result);
  } catch (cause) {
    for (const step of undo) await step();
    throw Fault.is(cause) ? cause : unwritable(path, cause);
  }
}

/**
 * Checks a name before any work is done for it.
 *
 * @throws Fault (output) where it is taken by a folder, or by a file that may not be replaced.
 */
export async function refuseTaken(path: string, overwrite: boolean): Promise<void> {
  // A link that leads nowhere is found by its own name only.
  const found = await stat(path)
    .catch(() => lstat(path))
    .catch(() => undefined);
  if (!found) return;
  if (found.isDirectory()) throw taken(path, 'a folder of that name', 'Give another name.');
  if (!found.isFile() && !found.isSymbolicLink()) {
    throw taken(path, 'something of that name that is no file', 'Give another name.');
  }
  if (!overwrite) throw taken(path);
}

/** Made here first, so that a refusal comes with the system's reason. */
async function create(path: string): Promise<void> {
  const file = await open(path, 'wx');
  await file.close();
}

async function bringToDisk(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

/** A hard link fails where the name was taken in the meantime; a rename would replace it without a word. */
async function putInPlace(beside: string, target: string, overwrite: boolean): Promise<void> {
  if (overwrite) {
    await rename(beside, target);
    return;
  }
  const refusal = await link(beside, target).catch((cause: NodeJS.ErrnoException) => cause);
  if (!refusal) {
    await rm(beside);
  } else if (refusal.code === 'EEXIST') {
    throw taken(target);
  } else if (NO_LINKS.includes(refusal.code)) {
    await claimAndRename(beside, target);
  } else {
    throw refusal;
  }
}

/** Without hard links: an empty file claims the name, which fails where it is taken, and is then replaced. */
export async function claimAndRename(beside: string, target: string): Promise<void> {
  await create(target).catch((cause: NodeJS.ErrnoException) => {
    throw cause.code === 'EEXIST' ? taken(target) : cause;
  });
  try {
    await rename(beside, target);
  } catch (cause) {
    await rm(target, { force: true });
    throw cause;
  }
}

function checkSignal(path: string, signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  throw new Fault({
    kind: 'cancelled',
    expected: 'the picture to be written',
    subject: path,
    received: 'a request to stop',
    saying: `${path} was not finished: it was stopped.`,
    remedy: 'Nothing was written.',
  });
}

function taken(
  path: string,
  received = 'a file of that name',
  remedy = 'Add --overwrite to replace it, or give another name with --out.',
): Fault {
  return new Fault({ kind: 'output', expected: 'a name that is free', subject: path, received, remedy });
}
