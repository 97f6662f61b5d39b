import { join } from 'node:path';
import type { Item } from '../plan/item.ts';
import { clearTheWayInside, removeInside, writeInside } from './inside.ts';
import { placeInside, STATE_FOLDER } from './output.ts';
import { readRecord } from './record.ts';

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
/** What an effect says of itself may be long. */
const MOST_BYTES = 64e6;

/** @throws Fault (output) where failures would be kept by way of a link. */
export async function checkFailures(folder: string): Promise<void> {
  await placeInside(folder, FAILURES);
}

/** Keeps what failed in the output folder, where other shards and workers find it too. */
export async function keepFailure(folder: string, failure: Failure): Promise<void> {
  await clearTheWayInside(folder, nameFor(failure.address));
  await writeInside(folder, nameFor(failure.address), `${JSON.stringify(failure, null, 2)}\n`);
}

export async function forgetFailure(folder: string, { address }: Pick<Item, 'address'>): Promise<void> {
  await removeInside(folder, nameFor(address));
}

export async function readFailure(
  folder: string,
  { address }: Pick<Item, 'address'>,
): Promise<Failure | undefined> {
  const failure = (await readRecord(join(folder, nameFor(address)), MOST_BYTES)) as
    | Failure
    | null
    | undefined;
  return failure?.address === address && typeof failure.reason === 'string' ? failure : undefined;
}

function nameFor(address: string): string {
  return `${FAILURES}/${address}.json`;
}
