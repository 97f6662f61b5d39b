import { stat } from 'node:fs/promises';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { changePath } from '../../effect/picture-value.ts';
import { Fault } from '../../fault.ts';
import { pathFrom } from '../../host/files/path-from.ts';
import { pictureValues } from '../../host/parameter-pictures.ts';
import { reasonOf, unwritable } from '../../picture/faults.ts';
import { sha256OfFile } from '../../picture/file-hash.ts';
import type { RenderedItem } from '../making/render-item.ts';
import type { Item } from '../plan/item.ts';
import { moveInside, setAsideInside, writeInside } from './inside.ts';
import { placeInside } from './output.ts';
import { isDamagedSidecar, type Sidecar, type Standing, sidecarPath, standingOf } from './sidecar.ts';

/** How a finished picture is put in its place. */
export interface Placing {
  /** The output folder. */
  readonly folder: string;
  /** Where the picture lies now, from the output folder. */
  readonly from: string;
  /** Take the name from a file of somebody else's, which is kept beside under another. */
  readonly overwrite?: boolean;
  readonly standing: Standing;
  readonly milliseconds: Readonly<Record<string, number>>;
  readonly attempts: number;
}

/**
 * Puts a picture and its sidecar in their places, the sidecar first: whatever moment a power cut chooses,
 * what is found is the whole render, or a record whose picture is missing or is the one before it, and
 * then it is made again. What was worked on, or is anybody's, is kept beside under another name.
 *
 * @throws Fault (output) where the disk refuses, or the name is taken by a file of somebody else's.
 */
export async function placeItem(item: Item, rendered: RenderedItem, placing: Placing): Promise<Sidecar> {
  const target = await placeInside(placing.folder, item.name);
  try {
    return await place(item, rendered, placing, target);
  } catch (cause) {
    throw Fault.is(cause) ? cause : unwritable(target, cause);
  }
}

async function place(item: Item, rendered: RenderedItem, placing: Placing, target: string): Promise<Sidecar> {
  const { folder, from, overwrite } = placing;
  // Painting takes a while, in which somebody may have put something under a name that was free.
  const isOlder = placing.standing.kind !== 'free';
  const standing = isOlder ? placing.standing : await standingOf(target, item.address, false);
  const path = await placeInside(folder, from);
  const sha256 = await sha256OfFile(path);
  // A picture of the very same bytes is ours, whoever took its record away.
  const isStrange = standing.kind === 'strange' && (await hashOfStrange(item, target)) !== sha256;
  if (isStrange && !overwrite) throw strangeFile(item.name);
  const sidecar = sidecarFor(
    item,
    rendered,
    { ...placing, standing },
    { sha256, modifiedMs: (await stat(path)).mtimeMs },
  );
  await writeInside(folder, sidecarPath(from), `${JSON.stringify(sidecar, null, 2)}\n`);
  if (standing.kind === 'changed' || isStrange) await setAsideInside(folder, item.name);
  if (await isDamagedSidecar(target)) await setAsideInside(folder, sidecarPath(item.name));
  await moveInside(folder, sidecarPath(from), sidecarPath(item.name));
  await moveInside(folder, from, item.name);
  return sidecar;
}

/** @throws Fault (output) for something that is no file, which stays where it is. */
async function hashOfStrange({ name }: Item, target: string): Promise<string> {
  return sha256OfFile(target).catch((cause) => {
    throw new Fault({
      kind: 'output',
      expected: 'a name that is free, or a picture made by this program',
      subject: `the output "${name}"`,
      received: reasonOf(cause),
      remedy: 'Move it away, or name another output folder.',
      cause,
    });
  });
}

function sidecarFor(
  item: Item,
  { bytes, facts }: RenderedItem,
  { folder, standing, milliseconds, attempts }: Placing,
  { sha256, modifiedMs }: { readonly sha256: string; readonly modifiedMs: number },
): Sidecar {
  return {
    address: item.address,
    name: item.name,
    labels: item.labels,
    tile: item.tile.shown,
    inputs: item.inputs,
    pictures: picturesFrom(item, dirname(join(folder, item.name))),
    picture: { bytes, sha256, ...facts.picture },
    seams: facts.seams,
    tileSeams: facts.tileSeams,
    notes: facts.notes,
    reports: facts.reports,
    laidOn: facts.laidOn,
    run: {
      finished: new Date().toISOString(),
      host: hostname(),
      node: process.version,
      modifiedMs,
      milliseconds,
      attempts,
      replaces: standing.kind === 'old' ? standing.sha256 : undefined,
    },
  };
}

function picturesFrom({ steps }: Item, folder: string): Sidecar['pictures'] {
  const found = steps.map((step) =>
    Object.fromEntries(
      pictureValues(step).map(([name, value]) => [name, changePath(value, (path) => pathFrom(folder, path))]),
    ),
  );
  return found.some((step) => Object.keys(step).length > 0) ? found : undefined;
}

/** The Fault where a file that is not ours has the name of a render. */
export function strangeFile(name: string): Fault {
  return new Fault({
    kind: 'output',
    expected: 'a name that is free, or a picture made by this program',
    subject: `the output "${name}"`,
    received: 'a file without the record that this program leaves beside its pictures',
    remedy:
      'It may be an older render whose record was lost, or yours. Add --overwrite to have it kept beside under another name, move it away, or name another output folder.',
  });
}
