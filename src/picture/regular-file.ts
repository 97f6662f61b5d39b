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

/**
 * Reads a file whole, by reading on and not by its size: what the system makes up as it is read says
 * that it is empty.
 *
 * @param most Bytes that it may have.
 * @throws What `openRegularFile` throws, and an Error whose code is EFBIG.
 */
export async function readRegularFile(path: string, most: number): Promise<Buffer> {
  const { file } = await openRegularFile(path);
  try {
    return await gather(piecesOf(file), most);
  } finally {
    await file.close();
  }
}

/** Puts pieces of bytes together. @throws Error whose code is EFBIG where they are more than `most`. */
export async function gather(pieces: AsyncIterable<Uint8Array>, most: number): Promise<Buffer> {
  const kept: Uint8Array[] = [];
  let length = 0;
  for await (const piece of pieces) {
    kept.push(piece);
    length += piece.length;
    if (length > most) throw Object.assign(new Error(`more than ${most / 1e6} MB`), { code: 'EFBIG' });
  }
  return Buffer.concat(kept);
}

async function* piecesOf(file: FileHandle): AsyncGenerator<Uint8Array> {
  for (;;) {
    const { bytesRead, buffer } = await file.read({ buffer: Buffer.alloc(1 << 16) });
    if (bytesRead === 0) return;
    yield buffer.subarray(0, bytesRead);
  }
}

function requireRegular(found: Awaited<ReturnType<typeof stat>>): void {
  if (found.isDirectory()) throw Object.assign(new Error('a folder'), { code: 'EISDIR' });
  if (!found.isFile()) throw Object.assign(new Error('something that is no file'), { code: 'ENXIO' });
}
