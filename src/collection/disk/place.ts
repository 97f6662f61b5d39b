import { mkdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, extname, join } from 'node:path';
import { Fault } from '../../fault.ts';
import { unwritable, writeBeside } from '../../picture/beside.ts';
import type { Item } from '../plan/item.ts';
import type { RenderedItem } from '../work/render-item.ts';
import { sha256OfFile } from './hash.ts';
import { placeInside } from './output.ts';
import { type Sidecar, type Standing, sidecarPath } from './sidecar.ts';

/** How a finished picture is put in its place. */
export interface Placing {
  /** The output folder. */
  readonly folder: string;
  /** Where the picture lies now, on the same disk. */
  readonly from: string;
  readonly standing: Standing;
  readonly milliseconds: Readonly<Record<string, number>>;
  readonly attempts: number;
}

/**
 * Puts a picture and its sidecar in their places, the sidecar last. Whatever moment a power cut chooses,
 * what is found is the whole render or one that does not count as made.
 *
 * @throws Fault (output) where the disk refuses.
 */
export async function placeItem(item: Item, rendered: RenderedItem, placing: Placing): Promise<Sidecar> {
  const target = await placeInside(placing.folder, item.name);
  try {
    return await place(item, rendered, placing, target);
  } catch (cause) {
    throw Fault.is(cause) ? cause : unwritable(target, cause);
  }
}

async function place(
  item: Item,
  { bytes, facts }: RenderedItem,
  { from, standing, milliseconds, attempts }: Placing,
  target: string,
): Promise<Sidecar> {
  const sha256 = await sha256OfFile(from);
  const { mtimeMs } = await stat(from);
  const sidecar: Sidecar = {
    address: item.address,
    name: item.name,
    labels: item.labels,
    tile: item.tile.shown,
    inputs: item.inputs,
    picture: { bytes, sha256, ...facts.picture },
    seams: facts.seams,
    tileSeams: facts.tileSeams,
    notes: facts.notes,
    reports: facts.reports,
    run: {
      finished: new Date().toISOString(),
      host: hostname(),
      node: process.version,
      modifiedMs: mtimeMs,
      milliseconds,
      attempts,
    },
  };
  const beside = sidecarPath(from);
  const text = `${JSON.stringify(sidecar, null, 2)}\n`;
  await writeBeside(beside, { overwrite: true }, (path) => writeFile(path, text));
  await mkdir(dirname(target), { recursive: true });
  if (standing.kind === 'changed') await setAside(target);
  await rm(sidecarPath(target), { force: true });
  await rename(from, target);
  await rename(beside, sidecarPath(target));
  return sidecar;
}

/** A picture that was worked on after it was made, or came to harm, is not thrown away. */
async function setAside(target: string): Promise<void> {
  const hash = (await sha256OfFile(target)).slice(0, 8);
  const ending = extname(target);
  await rename(target, join(dirname(target), `${basename(target, ending)}.changed-${hash}${ending}`));
}

/** The Fault where a file that is not ours has the name of a render. */
export function strangeFile(name: string): Fault {
  return new Fault({
    kind: 'output',
    expected: 'a name that is free, or a picture made by this program',
    subject: `the output "${name}"`,
    received: 'a file without the record that this program leaves beside its pictures',
    remedy: 'Move it away, name another output folder, or add --overwrite to replace it.',
  });
}
