import { moveLocale } from './locale.ts';
import type { Note, Surrounding } from './surrounding.ts';
import { swap, swapGetter } from './swap.ts';
import { pinTimers } from './timers.ts';
import { moveZone } from './zone.ts';

type Undo = () => void;
/** Pins what only the caller's platform has. */
export type PinMore = (elsewhere: readonly Surrounding[], note: Note) => Undo[];

/** Two moments that share neither year, month, day, weekday nor hour. */
const MOMENTS = { here: Date.UTC(2001, 1, 3, 4, 5, 6, 7), elsewhere: Date.UTC(2040, 9, 28, 17, 46, 51, 853) };
/** Two sequences that have nothing in common. */
const STARTS = { here: 0.137, elsewhere: 0.791 };
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Fixes chance, clock, time zone, locale, environment and machine, so that only those named `elsewhere` differ from
 * one copy of an effect to another.
 *
 * @param note Told of whatever is drawn from.
 * @returns What puts everything back.
 */
export function pinSurroundings(elsewhere: readonly Surrounding[], note: Note, more?: PinMore): Undo {
  const isMoved = (name: Surrounding) => elsewhere.includes(name);
  const undone = [
    ...pinChance(isMoved('chance') ? STARTS.elsewhere : STARTS.here, note),
    ...pinClock(isMoved('clock') ? MOMENTS.elsewhere : MOMENTS.here, note),
    ...(isMoved('locale') ? moveLocale((name) => note({ sort: 'locale', name })) : []),
    ...(isMoved('time zone') ? moveZone((name) => note({ sort: 'time zone', name })) : []),
    ...pinMachine(isMoved('machine') ? 2 : 1, note),
    ...pinTimers(elsewhere, note),
    ...(more?.(elsewhere, note) ?? []),
  ];
  return () => {
    for (const undo of undone.reverse()) undo();
  };
}

function pinChance(start: number, note: Note): Undo[] {
  let state = start;
  const drawing = (owner: string, key: string) => {
    note({ sort: 'chance', name: `${owner}.${key}` });
    state = (state + GOLDEN) % 1;
    return state;
  };
  const { crypto } = globalThis;
  return [
    swap(Math, 'random', () => drawing('Math', 'random')),
    swap(crypto, 'getRandomValues', <T extends ArrayBufferView>(array: T): T => {
      const bytes = new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
      for (let k = 0; k < bytes.length; k++) bytes[k] = 256 * drawing('crypto', 'getRandomValues');
      return array;
    }),
    swap(crypto, 'randomUUID', () => {
      const digits = () =>
        Math.floor(65_536 * drawing('crypto', 'randomUUID'))
          .toString(16)
          .padStart(4, '0');
      const parts = [digits() + digits(), digits(), `4${digits().slice(1)}`, `8${digits().slice(1)}`];
      return [...parts, digits() + digits() + digits()].join('-');
    }),
  ];
}

/** A clock that goes on by a millisecond whenever it is read, so that nobody waits for ever. */
function pinClock(start: number, note: Note): Undo[] {
  let moment = start;
  const read = (name: string) => {
    note({ sort: 'clock', name });
    return moment++;
  };
  const Original = globalThis.Date;
  const pinned = new Proxy(Original, {
    construct: (target, given, self) =>
      Reflect.construct(target, given.length > 0 ? given : [read('new Date()')], self),
    apply: () => new Original(read('Date()')).toString(),
    get: (target, key, self) => (key === 'now' ? () => read(`Date.${key}`) : Reflect.get(target, key, self)),
  });
  return [
    swap(globalThis, 'Date', pinned),
    swap(globalThis.performance, 'now', () => read('performance.now') / 7),
    swap(globalThis.performance, 'timeOrigin', start),
  ];
}

function pinMachine(number: number, note: Note): Undo[] {
  const { navigator } = globalThis as { navigator?: object };
  if (!navigator) return [];
  const get = () => {
    note({ sort: 'machine', name: 'navigator.hardwareConcurrency' });
    return 2 + 3 * number;
  };
  return [swapGetter(navigator, 'hardwareConcurrency', get)];
}
