import type { Item } from '../plan/item.ts';

/** What a job says: which item it is of. All else each worker finds in its own copy of the plan. */
export interface JobData {
  readonly address: string;
  readonly name: string;
}

const LONGEST_NAME = 60;

/** An id that looks like a number is refused by the engine. */
export function jobIdOf({ address }: Pick<Item, 'address'>): string {
  return `render-${address}`;
}

/**
 * The item that a job is of, or why it is none of ours: anybody may write to a Redis.
 *
 * @param items By address.
 */
export function itemOfJob(
  job: { readonly id?: string; readonly data: unknown },
  items: ReadonlyMap<string, Item>,
): Item | string {
  const { data } = job;
  if (typeof data !== 'object' || data === null) return 'it does not say what to render';
  const { address, name } = data as Partial<Record<keyof JobData, unknown>>;
  if (typeof address !== 'string' || typeof name !== 'string') return 'it does not say what to render';
  const item = items.get(address);
  if (!item) return 'what it asks for is not in this collection, or was planned by another version';
  if (job.id !== jobIdOf(item) || name !== item.name)
    return 'its address and its name do not belong together';
  return item;
}

/** The name of a job as it may be shown: short, and without signs that a terminal would obey. */
export function shownJob(id: string | undefined): string {
  const text = JSON.stringify(id ?? '').replace(/[\u007f-\u009f]/g, '?');
  return text.length > LONGEST_NAME ? `${text.slice(0, LONGEST_NAME)}..."` : text;
}
