import { lstat, open, rm, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { reasonOf, unwritable } from './faults.ts';
import { partName } from './litter.ts';

/**
 * Checks, before any work is done, that a file can come to lie under a name: the name is one, and in
 * the nearest folder on the way to it something can be made. That is tried, for rights alone do not
 * tell: some folders belong to the system, which lets nobody make anything in them.
 *
 * @throws Fault (output).
 */
export async function requireWritable(path: string): Promise<void> {
  await lstat(path).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOTDIR') throw unwritable(path, cause, 'a file in the place of its folder');
    if (cause.code !== 'ENOENT') throw unwritable(path, cause);
  });
  const folder = await nearestFolder(dirname(resolve(path)));
  const trial = join(folder, partName());
  try {
    await (await open(trial, 'wx')).close();
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    throw unwritable(
      path,
      cause,
      code === 'ENOENT' ? `${folder}, where nothing can be made` : reasonOf(cause),
    );
  } finally {
    await rm(trial, { force: true });
  }
}

async function nearestFolder(folder: string): Promise<string> {
  const found = await stat(folder).catch(() => undefined);
  return found?.isDirectory() || folder === dirname(folder) ? folder : nearestFolder(dirname(folder));
}
