import { expect, it } from 'vitest';
import type { Item } from '../plan/item.ts';
import { Turns } from './turns.ts';
import type { Workshop } from './workshop.ts';

it('lets nobody in before one that asked to be alone, though he asked earlier and found no room', async () => {
  const log: string[] = [];
  const ends = new Map<string, () => void>();
  const places = 1;
  const workshop = {
    means: {
      places,
      admit: (_item: Item, busy: number) => (busy < places ? {} : undefined),
    },
    attempt: ({ name }: Item) => {
      log.push(name);
      return new Promise((resolve) => ends.set(name, () => resolve('done')));
    },
    refuse: async ({ name }: Item) => void log.push(`refused ${name}`),
  };
  const turns = new Turns(workshop as unknown as Workshop);
  const take = (name: string, alone: boolean) => turns.take({ name } as Item, alone);
  const settle = () => new Promise((resolve) => setTimeout(resolve));

  const all = [take('first', false), take('early', false), take('alone', true), take('late', false)];
  for (const name of ['first', 'alone']) {
    await settle();
    expect(log.at(-1)).toBe(name);
    ends.get(name)!();
  }
  for (const name of ['early', 'late']) {
    await settle();
    ends.get(name)!();
  }
  await Promise.all(all);
  expect(log).toEqual(['first', 'alone', 'early', 'late']);
});
