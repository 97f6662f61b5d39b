import { Fault } from '../../fault.ts';
import type { Item } from './item.ts';

/** One part of several that a plan is split into. */
export interface Shard {
  /** From 1. */
  readonly index: number;
  readonly count: number;
}

/** Reads `2/3`. @throws Fault (usage). */
export function parseShard(text: string): Shard {
  const match = /^(\d{1,5})\/(\d{1,5})$/.exec(text.trim());
  const [index, count] = match ? [Number(match[1]), Number(match[2])] : [0, 0];
  if (index >= 1 && index <= count) return { index, count };
  throw new Fault({
    kind: 'usage',
    expected: 'a part of so many, from 1/1',
    subject: '--shard',
    received: `"${text}"`,
    remedy: 'Write for example 2/3 for the second of three.',
  });
}

/**
 * The items of one shard: of all in the order of their addresses every `count`th. Every machine comes to
 * the same parts from the same plan, and they differ by one item at most.
 */
export function itemsOfShard(items: readonly Item[], { index, count }: Shard): Item[] {
  const order = [...items].sort((a, b) =>
    a.address < b.address ? -1 : a.address > b.address ? 1 : a.name < b.name ? -1 : 1,
  );
  const own = new Set(order.filter((_, place) => place % count === index - 1));
  return items.filter((item) => own.has(item));
}
