import { readdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { nearestName } from '../nearest.ts';

interface NearWishes {
  /** What a relative path starts from; the working folder where absent. */
  readonly from?: string;
  /** What to say where nothing of a like name lies beside it: a whole sentence. */
  readonly otherwise?: string;
}

/**
 * What to do about a file or folder that is not there: the one remedy for tiles, masks, recipes,
 * collections and plugins alike.
 *
 * @param path As the user wrote it.
 */
export function remedyOfMissing(
  path: string,
  { from = '.', otherwise = 'Check the path.' }: NearWishes = {},
): string {
  const near = nearFile(path, from);
  return near === undefined ? otherwise : `Did you mean "${near}"?`;
}

/** The nearest name in its folder; where that is missing too, the nearest name of the folder. */
function nearFile(path: string, from: string): string | undefined {
  const [folder, name] = [dirname(path), basename(path)];
  const names = namesIn(resolve(from, folder));
  if (names === undefined) return folder === dirname(folder) ? undefined : nearFile(folder, from);
  // A link that leads nowhere is there by name.
  const others = new Map(
    names.filter((other) => other !== name).map((other) => [other.toLowerCase(), other]),
  );
  const near = nearestName(name, [...others.keys()]);
  return near === undefined ? undefined : join(folder, others.get(near)!);
}

function namesIn(folder: string): string[] | undefined {
  try {
    return readdirSync(folder).filter((name) => !name.startsWith('.'));
  } catch {
    return undefined;
  }
}
