import { realpath } from 'node:fs/promises';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { Fault } from '../../fault.ts';

/** Of everything in an output folder that is not a picture, a sidecar or a report. */
export const STATE_FOLDER = '.tenter';

/**
 * Where a name of a collection lies, followed through all links.
 *
 * @throws Fault (output) where that is outside the output folder: a link in it may lead anywhere.
 */
export async function placeInside(folder: string, name: string): Promise<string> {
  const place = resolve(folder, name);
  if (!isInside(resolve(folder), place)) throw outside(name, place, folder);
  const root = await realOf(resolve(folder));
  const real = join(await realOf(dirname(place)), relative(dirname(place), place));
  const target = await realpath(real).catch(() => real);
  if (!isInside(root, target)) throw outside(name, target, folder);
  return place;
}

/** Of the part of a path that exists; what follows is yet to be made. */
async function realOf(path: string): Promise<string> {
  const real = await realpath(path).catch(() => undefined);
  if (real !== undefined || dirname(path) === path) return real ?? path;
  return join(await realOf(dirname(path)), relative(dirname(path), path));
}

function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return (
    way !== '' &&
    way !== '..' &&
    !way.startsWith(`..${sep}`) &&
    !resolve(way).startsWith('\\\\') &&
    way[1] !== ':'
  );
}

function outside(name: string, place: string, folder: string): Fault {
  return new Fault({
    kind: 'output',
    expected: `a place inside ${folder}`,
    subject: `the output "${name}"`,
    received: place,
    remedy: 'A link or a name leads out of the output folder; remove it, or name another folder.',
  });
}
