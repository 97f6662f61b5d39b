import type { Note, Surrounding } from './surrounding.ts';
import { swap } from './swap.ts';

type Call = (...given: unknown[]) => unknown;
type Holder = Record<string, unknown>;

/** ms: up to here it is a pause that lets others have their turn, which takes as long as ever. */
const PAUSE = 1;
/** How a late timer comes, ms: so many times as late and a little more, but never much. */
const LATE = { times: 4, more: 20, most: 2000 };

/** Those that a platform has at hand, and the argument of each that says how long. */
const GLOBAL_TIMERS = { setTimeout: 1, setInterval: 1 } as const;

/** Lets the timers of the platform run late, or out at once. @returns What puts all back. */
export function pinTimers(elsewhere: readonly Surrounding[], note: Note): (() => void)[] {
  const holder = globalThis as unknown as Holder;
  const signals = (holder.AbortSignal ?? {}) as Holder;
  return [
    ...paceTimers(holder, GLOBAL_TIMERS, elsewhere, note),
    ...paceTimers(signals, { timeout: 0 }, elsewhere, note, 'AbortSignal.timeout'),
  ];
}

/**
 * The same for functions of one holder.
 *
 * @param timers By its name the argument that says how long, counted from 0.
 * @param called What they are called in words, where not by their own names.
 */
export function paceTimers(
  holder: Holder,
  timers: Readonly<Record<string, number>>,
  elsewhere: readonly Surrounding[],
  note: Note,
  called?: string,
): (() => void)[] {
  return Object.entries(timers).flatMap(([key, at]) => {
    const original = holder[key];
    if (typeof original !== 'function') return [];
    const paced = (...given: unknown[]): unknown => {
      note({ sort: 'timers', name: called ?? key });
      const ms = pacedBy(elsewhere, Number(given[at] ?? 0));
      return (original as Call).apply(holder, given.length > at ? given.with(at, ms) : given);
    };
    return [swap(holder, key, Object.assign(paced, original))];
  });
}

function pacedBy(elsewhere: readonly Surrounding[], ms: number): number {
  if (!(ms > PAUSE)) return ms;
  if (elsewhere.includes('early timers')) return 0;
  return elsewhere.includes('timers') ? Math.min(LATE.times * ms + LATE.more, ms + LATE.most) : ms;
}
