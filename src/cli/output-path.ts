import { basename, extname } from 'node:path';
import { MM_PER_INCH, trimNumber } from '../repeat/length.ts';

/** What tells one render of a tile from another. */
interface NameParts {
  /** An effect, or the name or path of a recipe. */
  readonly target: string;
  readonly preset?: string;
  readonly seed: string;
  /** Pixels per mm, where it was asked for. */
  readonly dpi?: number;
  readonly sketch?: boolean;
}

/** Where a render goes: `--out`, else a PNG in the current folder named after what went into it. */
export function outputPath(
  out: string | undefined,
  tile: string | undefined,
  { target, preset, seed, dpi, sketch }: NameParts,
): string {
  if (out !== undefined) return out;
  const words = [
    tile && basename(tile, extname(tile)),
    basename(target, extname(target)),
    preset,
    seed !== '1' && `seed-${seed}`,
    dpi && `${trimNumber(dpi * MM_PER_INCH, 0)}dpi`,
    sketch && 'sketch',
  ];
  return `${words.filter(Boolean).map(fileWord).join('-')}.png`;
}

/** Without what a file name cannot hold everywhere. */
function fileWord(word: unknown): string {
  return String(word).replaceAll(/[^\p{L}\p{N}._-]+(\.+[^\p{L}\p{N}._-]+)*/gu, '-');
}
