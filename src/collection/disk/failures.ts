import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Item } from '../plan/item.ts';
import { removeInside, writeInside } from './inside.ts';
import { placeInside, STATE_FOLDER } from './output.ts';

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

const FAILURES = `${STATE_FOLDER}/failures`;

/** @throws Fault (output) where failures would be kept by way of a link. */
export async function checkFailures(folder: string): Promise<void> {
  await placeInside(folder, FAILURES);
}

/** Keeps what failed in the output folder, where other shards and workers find it too. */
export async function keepFailure(folder: string, failure: Failure): Promise<void> {
  await writeInside(folder, nameFor(failure.address), `${JSON.stringify(failure, null, 2)}\n`);
}

export async function forgetFailure(folder: string, { address }: Pick<Item, 'address'>): Promise<void> {
  await removeInside(folder, nameFor(address));
}

export async function readFailure(
  folder: string,
  { address }: Pick<Item, 'address'>,
): Promise<Failure | undefined> {
  const text = await readFile(join(folder, nameFor(address)), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    const failure: Failure = JSON.parse(text);
    return failure.address === address && typeof failure.reason === 'string' ? failure : undefined;
  } catch {
    return undefined;
  }
}

function nameFor(address: string): string {
  return `${FAILURES}/${address}.json`;
}
