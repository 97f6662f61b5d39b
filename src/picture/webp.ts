import type { ReadAt } from './file-access.ts';

/** RIFF, the size of all, WEBP, then the head of the first chunk (WebP Container Specification). */
const FIRST_CHUNK = 12;
const FLAGS = 20;
const ICC_FLAG = 0x20;

/** True where the extended header says that a profile is embedded. */
export async function hasWebpProfile(read: ReadAt): Promise<boolean> {
  const head = await read(FIRST_CHUNK, FLAGS - FIRST_CHUNK + 1);
  return head.toString('latin1', 0, 4) === 'VP8X' && (head[FLAGS - FIRST_CHUNK] & ICC_FLAG) !== 0;
}
