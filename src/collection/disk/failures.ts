import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeBeside } from '../../picture/beside.ts';
import type { Item } from '../plan/item.ts';
import { STATE_FOLDER } from './output.ts';

/** A render that failed, as it is kept for the report. */
export interface Failure {
  readonly address: string;
  readonly name: string;
  readonly kind: string;
  readonly reason: string;
  /** Makes it alone. */
  readonly command: string;
  readonly attempts: number;
}

/** Keeps what failed in the output folder, where other shards and workers find it too. */
export async function keepFailure(folder: string, failure: Failure): Promise<void> {
  const path = pathOf(folder, failure.address);
  await mkdir(join(path, '..'), { recursive: true });
  const text = `${JSON.stringify(failure, null, 2)}\n`;
  await writeBeside(path, { overwrite: true }, (beside) => writeFile(beside, text));
}

export async function forgetFailure(folder: string, { address }: Pick<Item, 'address'>): Promise<void> {
  await rm(pathOf(folder, address), { force: true });
}

export async function readFailure(
  folder: string,
  { address }: Pick<Item, 'address'>,
): Promise<Failure | undefined> {
  const text = await readFile(pathOf(folder, address), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    const failure: Failure = JSON.parse(text);
    return failure.address === address && typeof failure.reason === 'string' ? failure : undefined;
  } catch {
    return undefined;
  }
}

function pathOf(folder: string, address: string): string {
  return join(folder, STATE_FOLDER, 'failures', `${address}.json`);
}
