import { Fault } from '../../fault.ts';
import { suggestName } from '../../nearest.ts';
import type { Item } from './item.ts';

/** The least part of an address that names a render. */
const LEAST_ADDRESS = 8;

/**
 * The items that are named, in the order of the plan.
 *
 * @param words Names (with or without their ending) or addresses, whole or in part.
 * @throws Fault (usage) for what names none or more than one.
 */
export function chosenOf(items: readonly Item[], words: readonly string[]): Item[] {
  const byName = new Map(
    items.flatMap((item) => [[item.name, item] as const, [withoutEnding(item.name), item] as const]),
  );
  const byAddress = new Map<string, Item[]>();
  for (const item of items) {
    const key = item.address.slice(0, LEAST_ADDRESS);
    byAddress.set(key, [...(byAddress.get(key) ?? []), item]);
  }
  const chosen = new Set<Item>();
  for (const word of words) {
    const near = byAddress.get(word.slice(0, LEAST_ADDRESS)) ?? [];
    const found = byName.has(word)
      ? [byName.get(word)!]
      : near.filter(({ address }) => address.startsWith(word));
    if (found.length !== 1) throw notOne(word, found.length, items);
    chosen.add(found[0]);
  }
  return items.filter((item) => chosen.has(item));
}

/** The words of a list: one to a line; what follows # is a remark. */
export function wordsOfList(text: string): string[] {
  return text
    .split(/\r?\n/)
    .map((line) => line.replace(/(^|\s)#.*$/, '').trim())
    .filter((line) => line !== '');
}

function withoutEnding(name: string): string {
  return name.replace(/\.[a-z]+$/, '');
}

function notOne(word: string, count: number, items: readonly Item[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the name or address of one render of this collection',
    subject: '--only',
    received: count > 1 ? `"${word}", which is the beginning of ${count} addresses` : `"${word}"`,
    remedy:
      count > 1
        ? 'Give more of it.'
        : suggestName(
            word,
            items
              .slice(0, 500)
              .map(({ name }) => withoutEnding(name))
              .slice(0, 12),
          ),
  });
}
