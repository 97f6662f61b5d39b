import type { FileHandle } from 'node:fs/promises';

/** Reads up to `length` bytes at `offset`; fewer where the data ends. */
export type ReadAt = (offset: number, length: number) => Promise<Buffer>;

/** Reads a file by place. */
export function fileReader(file: FileHandle): ReadAt {
  return async (offset, length) => {
    if (!Number.isSafeInteger(offset)) return Buffer.alloc(0);
    const bytes = Buffer.alloc(length);
    const { bytesRead } = await file.read(bytes, 0, length, offset);
    return bytes.subarray(0, bytesRead);
  };
}

/** Reads a block of memory by place. */
export function memoryReader(bytes: Buffer): ReadAt {
  return async (offset, length) => bytes.subarray(offset, offset + length);
}

/**
 * Writes a whole block at `offset`. A disk that fills up takes part of a block without a word; only the
 * next write of the rest fails.
 */
export async function writeFully(file: FileHandle, bytes: Buffer, offset: number): Promise<void> {
  for (let done = 0; done < bytes.length; ) {
    const { bytesWritten } = await file.write(bytes, done, bytes.length - done, offset + done);
    done += bytesWritten;
  }
}

/**
 * Writes blocks one behind the other, as `writeFully` writes one.
 *
 * @returns Bytes of them all.
 */
export async function writeAllFully(
  file: FileHandle,
  parts: readonly Buffer[],
  offset: number,
): Promise<number> {
  const { bytesWritten } = await file.writev(parts, offset);
  const bytes = parts.reduce((sum, { length }) => sum + length, 0);
  if (bytesWritten < bytes)
    await writeFully(file, Buffer.concat(parts).subarray(bytesWritten), offset + bytesWritten);
  return bytes;
}
