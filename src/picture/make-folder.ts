import { mkdir, rmdir, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { unwritable } from './faults.ts';

/**
 * Makes a folder and those above it that are missing, each by a call of its own: asked for all at
 * once where none can be made, such as under /proc, Node tries for ever and hears no Ctrl-C.
 *
 * @param mode Rights of those that are made; the system's usual ones where absent.
 * @returns Those that were made, the outermost first.
 * @throws Fault (output) where one cannot be made; none is then left.
 */
export async function makeFolder(folder: string, mode?: number): Promise<string[]> {
  const made: string[] = [];
  try {
    for (const level of await missingLevels(resolve(folder)))
      if (await makeLevel(level, mode)) made.push(level);
  } catch (cause) {
    await removeFolders(made);
    throw unwritable(folder, cause, receivedInstead(cause));
  }
  return made;
}

/** Removes folders that were made for nothing, from the innermost outwards, as long as they are empty. */
export async function removeFolders(made: readonly string[]): Promise<void> {
  for (const folder of [...made].reverse()) {
    const removed = await rmdir(folder).then(
      () => true,
      () => false,
    );
    if (!removed) return;
  }
}

/** The outermost first. */
async function missingLevels(folder: string): Promise<string[]> {
  const missing: string[] = [];
  for (let at = folder; !(await isFolder(at)); at = dirname(at)) {
    missing.unshift(at);
    if (dirname(at) === at) break;
  }
  return missing;
}

/** @returns False where somebody else made it in the meantime. */
async function makeLevel(folder: string, mode?: number): Promise<boolean> {
  try {
    await mkdir(folder, mode);
    return true;
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'EEXIST' && (await isFolder(folder))) return false;
    throw cause;
  }
}

function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
}

/** The folder around it is there, so a system that finds none says that it takes none. */
function receivedInstead(cause: unknown): string | undefined {
  const { code } = cause as NodeJS.ErrnoException;
  if (code === 'EEXIST' || code === 'ENOTDIR') return 'a file in the place of its folder';
  return code === 'ENOENT' ? 'a place that takes no folders' : undefined;
}
