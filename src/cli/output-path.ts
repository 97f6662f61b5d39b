import { basename, extname } from 'node:path';

/** Where a render goes: `--out`, else a PNG in the current folder named after what went into it. */
export function outputPath(
  out: string | undefined,
  tile: string | undefined,
  parts: readonly (string | false | undefined)[],
): string {
  if (out !== undefined) return out;
  const words = [tile, ...parts].filter((part) => typeof part === 'string');
  return `${words.map((word) => basename(word, extname(word))).join('-')}.png`;
}
