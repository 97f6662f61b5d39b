import { open, readFile, rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Fault } from '../fault.ts';
import { claimAndRename } from '../picture/beside.ts';
import { renameOver } from '../picture/folder-beside.ts';
import { sha256OfFile } from '../picture/index.ts';
import type { ParcelFacts } from './facts.ts';

export const FACTS_FILE = 'parcel.json';

/** What stands under a parcel's name. */
export type ParcelStanding = 'free' | 'made' | 'other parcel' | 'strange';

/** Looks whether the very parcel is there already, whole. */
export async function standingOfParcel(
  path: string,
  address: string,
  isZip: boolean,
): Promise<ParcelStanding> {
  const found = await stat(path).catch(() => undefined);
  if (!found) return 'free';
  if (found.isDirectory() === isZip) return 'strange';
  const text = isZip
    ? await firstOfZip(path)
    : await readFile(join(path, FACTS_FILE), 'utf8').catch(() => '');
  const facts = factsIn(text);
  if (!facts) return 'strange';
  if (facts.address !== address) return 'other parcel';
  // A ZIP gets its name when it is whole; a folder's files can be changed one by one.
  return isZip || (await isWhole(path, facts)) ? 'made' : 'other parcel';
}

async function isWhole(folder: string, { files }: ParcelFacts): Promise<boolean> {
  for (const { name, bytes, sha256 } of files) {
    const found = await stat(join(folder, name)).catch(() => undefined);
    if (found?.size !== bytes || (await sha256OfFile(join(folder, name)).catch(() => '')) !== sha256)
      return false;
  }
  return true;
}

function factsIn(text: string): ParcelFacts | undefined {
  try {
    const value = JSON.parse(text) as ParcelFacts;
    return typeof value.address === 'string' && Array.isArray(value.files) ? value : undefined;
  } catch {
    return undefined;
  }
}

/** More than any parcel.json holds. */
const MOST_BYTES = 16e6;

/** The first file of a ZIP of ours, which is stored (APPNOTE 4.3.7). */
async function firstOfZip(path: string): Promise<string> {
  const file = await open(path).catch(() => undefined);
  if (!file) return '';
  try {
    const head = Buffer.alloc(30);
    await file.read(head, 0, 30, 0);
    const size = head.readUInt32LE(18);
    if (head.readUInt32LE(0) !== 0x04034b50 || head.readUInt16LE(8) !== 0 || size > MOST_BYTES) return '';
    const text = Buffer.alloc(size);
    await file.read(text, 0, size, 30 + head.readUInt16LE(26) + head.readUInt16LE(28));
    return text.toString('utf8');
  } finally {
    await file.close();
  }
}

/** @throws Fault (output) where the name is taken by something that may not be replaced. */
export function refuseStanding(path: string, standing: ParcelStanding, overwrite: boolean): void {
  if (standing === 'free' || (standing === 'other parcel' && overwrite)) return;
  const isOther = standing === 'other parcel';
  throw new Fault({
    kind: 'output',
    expected: 'a name that is free',
    subject: path,
    received: isOther ? 'a parcel of other inputs' : 'something of that name that is no parcel',
    remedy: isOther
      ? 'Add --overwrite to replace it, or give another folder with --out.'
      : 'Give another folder with --out; it is left alone.',
  });
}

/** Gives a finished parcel its name; what it replaces goes when it has it. */
export async function putParcel(from: string, path: string, standing: ParcelStanding): Promise<void> {
  if (standing === 'free' && path.endsWith('.zip')) {
    await claimAndRename(from, path);
    return;
  }
  if (standing === 'free') {
    // A folder that is not empty refuses the rename; an empty one of that name is nobody's loss.
    await rename(from, path);
    return;
  }
  await renameOver(from, path);
}
