import { randomUUID } from 'node:crypto';
import { link, lstat, readdir, rename, rm, rmdir, writeFile } from 'node:fs/promises';
import { basename, dirname, extname, join, relative, resolve } from 'node:path';
import { type PlaceOptions, writeBeside } from '../../picture/beside.ts';
import { sha256OfFile } from '../../picture/file-hash.ts';
import { makeFolder } from '../../picture/make-folder.ts';
import { placeInside } from './output.ts';

/*
 * Everything that is written to an output folder or removed from it goes through here, so that nothing is
 * done by way of a link. Names are relative to the folder. All throw a Fault (output) for a link or a name
 * that leads out of it, and otherwise what the system throws.
 */

/** Makes a folder in the output folder, or that itself where `name` is empty. @returns Its path. */
export async function makeFolderInside(folder: string, name: string): Promise<string> {
  const path = name === '' ? resolve(folder) : await placeInside(folder, name);
  await makeFolder(path);
  return path;
}

/** Writes a whole file, in the place of what was there. */
export async function writeInside(folder: string, name: string, text: string): Promise<void> {
  await fillInside(folder, name, {}, (beside) => writeFile(beside, text));
}

/** The same for a file that is filled piece by piece; see `writeBeside`. */
export async function fillInside<Result>(
  folder: string,
  name: string,
  { signal }: Pick<PlaceOptions, 'signal'>,
  fill: (beside: string) => Promise<Result>,
): Promise<Result> {
  return writeBeside(await placeInside(folder, name), { overwrite: true, signal }, fill);
}

/** Moves a file into another's place. */
export async function moveInside(folder: string, from: string, to: string): Promise<void> {
  const target = await placeInside(folder, to);
  await makeFolder(dirname(target));
  await rename(await placeInside(folder, from), target);
}

/** Gives a file a second name. Where the disk cannot, `text` is written under it. @returns False where the name is taken. */
export async function nameInside(folder: string, from: string, to: string, text: string): Promise<boolean> {
  const [source, target] = [await placeInside(folder, from), await placeInside(folder, to)];
  const isTaken = (error: NodeJS.ErrnoException) => {
    if (error.code === 'EEXIST') return false;
    throw error;
  };
  const refusal = await link(source, target).catch((error: NodeJS.ErrnoException) => error);
  if (!refusal) return true;
  if (refusal.code === 'EEXIST') return false;
  return writeFile(target, text, { flag: 'wx' }).then(() => true, isTaken);
}

/** Removes a file; fine where there is none, and a folder, which this program never makes there, stays. */
export async function removeInside(folder: string, name: string): Promise<void> {
  const path = await placeInside(folder, name);
  await rm(path, { force: true }).catch(async (cause) => {
    if (!(await lstat(path)).isDirectory()) throw cause;
  });
}

/** Removes the files of a folder whose names are of our own forms, and then the folder if nothing else is in it. */
export async function clearInside(
  folder: string,
  name: string,
  isOurs: (file: string) => boolean,
): Promise<void> {
  for (const file of await namesInside(folder, name)) {
    if (isOurs(file)) await removeInside(folder, `${name}/${file}`);
  }
  await rmdir(await placeInside(folder, name)).catch((cause: NodeJS.ErrnoException) => {
    if (!['ENOENT', 'ENOTEMPTY', 'EEXIST', 'ENOTDIR'].includes(cause.code ?? '')) throw cause;
  });
}

/** The names in a folder; none where it is missing, or no folder. */
export async function namesInside(folder: string, name: string): Promise<string[]> {
  return readdir(await placeInside(folder, name)).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT' || cause.code === 'ENOTDIR') return [];
    throw cause;
  });
}

/** Keeps a file that is in the way, under another name beside it: `leaf.png` becomes `leaf.changed-0123abcd.png`. */
export async function setAsideInside(folder: string, name: string): Promise<void> {
  const path = await placeInside(folder, name);
  const ending = extname(path);
  const hash = await sha256OfFile(path).catch(() => '');
  const asideFor = (mark: string) =>
    join(dirname(path), `${basename(path, ending)}.changed-${mark}${ending}`);
  const aside = asideFor(hash.slice(0, 8));
  // What was set aside before may have been worked on since.
  const isFree = hash !== '' && (await sha256OfFile(aside).catch(freeOrNot)) === hash;
  const target = isFree ? aside : asideFor(randomUUID());
  await moveInside(folder, name, relative(resolve(folder), target));

  function freeOrNot(cause: NodeJS.ErrnoException): string {
    return cause.code === 'ENOENT' ? hash : '';
  }
}

/** Sets aside what is there and no file, so that a file can take its place. */
export async function clearTheWayInside(folder: string, name: string): Promise<void> {
  const found = await lstat(await placeInside(folder, name)).catch(() => undefined);
  if (found && !found.isFile()) await setAsideInside(folder, name);
}
