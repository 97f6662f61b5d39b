import type { Note, Surrounding } from '../../effect/prove/surroundings.ts';
import { swap, swapGetter } from '../../effect/prove/swap.ts';

/** The engine's own switches: a thread may not start with others. */
const OF_THE_ENGINE = /^NODE_/;
const NUMBERS = { here: 4373, elsewhere: 9041 };

/** Pins what a process says of itself: its environment, its numbers, its clocks. @returns What puts all back. */
export function pinProcess(elsewhere: readonly Surrounding[], note: Note): (() => void)[] {
  const isMoved = (name: Surrounding) => elsewhere.includes(name);
  const number = isMoved('machine') ? NUMBERS.elsewhere : NUMBERS.here;
  const numbers = ['pid', 'ppid'].map((key, index) =>
    swapGetter(process, key, () => {
      note({ sort: 'machine', name: `process.${key}` });
      return number - 17 * index;
    }),
  );
  return [
    ...numbers,
    pinEnvironment(isMoved('environment'), note),
    ...pinClocks(isMoved('clock') ? 7e9 : 1e9, note),
  ];
}

function pinEnvironment(isMoved: boolean, note: Note): () => void {
  const env = new Proxy(process.env, {
    get(target, key) {
      if (typeof key !== 'string' || OF_THE_ENGINE.test(key)) return Reflect.get(target, key);
      note({ sort: 'environment', name: `process.env.${key}` });
      return isMoved ? `${target[key] ?? ''}elsewhere` : target[key];
    },
  });
  return swap(process, 'env', env);
}

/** Clocks that go on by a millisecond whenever they are read. */
function pinClocks(start: number, note: Note): (() => void)[] {
  let moment = start;
  const read = (key: string) => {
    note({ sort: 'clock', name: `process.${key}` });
    return moment++;
  };
  const hrtime = (before: readonly [number, number] = [0, 0]) => {
    const at = read('hrtime');
    return [Math.floor(at / 1000) - before[0], (at % 1000) * 1e6 - before[1]];
  };
  const bigint = () => BigInt(read('hrtime.bigint')) * 1_000_000n;
  return [
    swap(process, 'hrtime', Object.assign(hrtime, { bigint })),
    swap(process, 'uptime', () => read('uptime') / 1000),
  ];
}
