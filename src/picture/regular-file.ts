import { constants } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';

/**
 * Opens a file for reading, and nothing else: a pipe would hang where nobody writes into it, and a
 * device may never end. What lies there is looked at twice, for it may change between look and open.
 *
 * @returns The open file, for the caller to close, and its size in bytes.
 * @throws A system error; its code is EISDIR for a folder and ENXIO for whatever else is no file.
 */
export async function openRegularFile(path: string): Promise<{ file: FileHandle; size: number }> {
  requireRegular(await stat(path));
  // Without O_NONBLOCK the opening itself would wait; where a system has no such flag, it is left out.
  const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const found = await file.stat();
    requireRegular(found);
    return { file, size: found.size };
  } catch (error) {
    await file.close();
    throw error;
  }
}

function requireRegular(found: Awaited<ReturnType<typeof stat>>): void {
  if (found.isDirectory()) throw Object.assign(new Error('a folder'), { code: 'EISDIR' });
  if (!found.isFile()) throw Object.assign(new Error('something that is no file'), { code: 'ENXIO' });
}
