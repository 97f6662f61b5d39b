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
