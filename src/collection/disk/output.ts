import { lstat } from 'node:fs/promises';
import { join, relative, resolve, sep } from 'node:path';
import { Fault } from '../../fault.ts';

/** Of everything in an output folder that is not a picture, a sidecar or a report. */
export const STATE_FOLDER = '.tenter';
export const REPORT_FILE = 'report.json';
export const TIMES_FILE = 'report-times.json';

/**
 * Where a name of a collection lies. The output folder itself may be a link, for its user named it; one
 * inside it may lead anywhere, so nothing is written or removed by way of it.
 *
 * @throws Fault (output) for a name that leads out of the folder, or a link on its way or in its place.
 */
export async function placeInside(folder: string, name: string): Promise<string> {
  const root = resolve(folder);
  const place = resolve(root, name);
  if (!isInside(root, place)) throw outside(name, place, folder);
  let at = root;
  for (const part of relative(root, place).split(sep)) {
    at = join(at, part);
    const found = await lstat(at).catch(() => undefined);
    // Of what is not there yet nothing can be a link; what cannot be looked at cannot be written either.
    if (!found) break;
    if (found.isSymbolicLink()) throw linked(name, at, folder);
  }
  return place;
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
    remedy: 'The name leads out of the output folder; change it, or name another folder.',
  });
}

function linked(name: string, link: string, folder: string): Fault {
  return new Fault({
    kind: 'output',
    expected: `a place inside ${folder}`,
    subject: `the output "${name}"`,
    received: `a link at ${link}`,
    remedy: 'It might lead anywhere, so nothing was written. Remove the link, or name another output folder.',
  });
}
