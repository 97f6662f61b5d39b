import type { Drawn } from './surroundings.ts';
import { swap } from './swap.ts';

/** A source of numbers that an effect must not draw from, because it is no argument of it. */
interface Source {
  readonly sort: 'chance' | 'clock';
  readonly owner: string;
  readonly key: string;
}

const SOURCES: readonly Source[] = [
  { sort: 'chance', owner: 'Math', key: 'random' },
  { sort: 'chance', owner: 'crypto', key: 'getRandomValues' },
  { sort: 'chance', owner: 'crypto', key: 'randomUUID' },
  { sort: 'clock', owner: 'performance', key: 'now' },
];

/**
 * Watches the platform's chance and clock while `call` runs; both work as ever meanwhile.
 *
 * @returns What was drawn from, each once.
 */
export async function watchSources(call: () => unknown): Promise<Drawn[]> {
  const drawn = new Map<string, Drawn>();
  const restore = [...SOURCES.map((source) => trap(source, drawn)), trapDate(drawn)];
  try {
    await call();
  } finally {
    for (const undo of restore) undo();
  }
  return [...drawn.values()];
}

function trap({ sort, owner, key }: Source, drawn: Map<string, Drawn>): () => void {
  const holder = (globalThis as unknown as Record<string, Record<string, unknown> | undefined>)[owner];
  const original = holder?.[key];
  if (!holder || typeof original !== 'function') return () => {};
  const name = `${owner}.${key}`;
  return swap(holder, key, function watched(this: unknown, ...given: unknown[]): unknown {
    drawn.set(name, { sort, name });
    return original.apply(this ?? holder, given);
  });
}

function trapDate(drawn: Map<string, Drawn>): () => void {
  const original = globalThis.Date;
  const note = (name: string) => void drawn.set(name, { sort: 'clock', name });
  globalThis.Date = new Proxy(original, {
    construct(target, given, self) {
      if (given.length === 0) note('new Date()');
      return Reflect.construct(target, given, self);
    },
    apply(target, self, given) {
      note('Date()');
      return Reflect.apply(target, self, given);
    },
    get(target, key, self) {
      if (key === 'now') note(`Date.${key}`);
      return Reflect.get(target, key, self);
    },
  });
  return () => {
    globalThis.Date = original;
  };
}
