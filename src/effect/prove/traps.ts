import type { Drawn } from './surrounding.ts';
import { swap } from './swap.ts';

/** A source of numbers that an effect must not draw from, because it is no argument of it. */
interface Source {
  readonly sort: 'chance' | 'clock' | 'outside';
  readonly owner: string;
  readonly key: string;
}

/** What calls others of these comes first: it is named as its author wrote it, not the clock inside it. */
const SOURCES: readonly Source[] = [
  { sort: 'outside', owner: 'globalThis', key: 'fetch' },
  { sort: 'chance', owner: 'Math', key: 'random' },
  { sort: 'chance', owner: 'crypto', key: 'getRandomValues' },
  { sort: 'chance', owner: 'crypto', key: 'randomUUID' },
  { sort: 'clock', owner: 'performance', key: 'now' },
];

/** What was drawn from by a call that a trap is laid for. */
export interface Trapped extends Drawn {
  readonly sort: Source['sort'];
}

/** Whoever watches at the moment. */
const watchers = new Set<Map<string, Trapped>>();
let isLaid = false;
/** What takes the traps up again that are laid while somebody watches. */
let undone: (() => void)[] = [];

/**
 * Watches the platform's chance and clock while `call` runs; both work as ever meanwhile.
 *
 * @returns What was drawn from, each once.
 */
export async function watchSources(call: () => unknown): Promise<Trapped[]> {
  const end = watchFromNow();
  let drawn: Trapped[] = [];
  try {
    await call();
  } finally {
    drawn = end();
  }
  return drawn;
}

/**
 * The same from now on.
 *
 * @returns What ends it, and tells what was drawn from, each once.
 */
export function watchFromNow(): () => Trapped[] {
  const drawn = new Map<string, Trapped>();
  if (!isLaid && watchers.size === 0) undone = layTraps();
  watchers.add(drawn);
  return () => {
    watchers.delete(drawn);
    if (!isLaid && watchers.size === 0) for (const undo of undone.splice(0).reverse()) undo();
    return [...drawn.values()];
  };
}

/**
 * Lays the traps once and for all, for where everything is locked afterwards and none could be laid any
 * more. They cannot be taken back, and nobody can replace them.
 */
export function layTrapsForGood(): void {
  if (isLaid) return;
  isLaid = true;
  layTraps();
  for (const { owner, key } of SOURCES) {
    const holder = holderOf(owner);
    if (typeof holder?.[key] === 'function')
      Object.defineProperty(holder, key, { writable: false, configurable: false });
  }
}

function layTraps(): (() => void)[] {
  return [...SOURCES.map(trap), trapDate()];
}

function note(sort: Trapped['sort'], name: string): void {
  for (const drawn of watchers) drawn.set(name, { sort, name });
}

function holderOf(owner: string): Record<string, unknown> | undefined {
  return (globalThis as unknown as Record<string, Record<string, unknown> | undefined>)[owner];
}

function trap({ sort, owner, key }: Source): () => void {
  const holder = holderOf(owner);
  const original = holder?.[key];
  if (!holder || typeof original !== 'function') return () => {};
  const name = owner === 'globalThis' ? key : `${owner}.${key}`;
  return swap(holder, key, function watched(this: unknown, ...given: unknown[]): unknown {
    note(sort, name);
    return original.apply(this ?? holder, given);
  });
}

function trapDate(): () => void {
  const original = globalThis.Date;
  globalThis.Date = new Proxy(original, {
    construct(target, given, self) {
      if (given.length === 0) note('clock', 'new Date()');
      return Reflect.construct(target, given, self);
    },
    apply(target, self, given) {
      note('clock', 'Date()');
      return Reflect.apply(target, self, given);
    },
    get(target, key, self) {
      if (key === 'now') note('clock', `Date.${key}`);
      return Reflect.get(target, key, self);
    },
  });
  return () => {
    globalThis.Date = original;
  };
}
