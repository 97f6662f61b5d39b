import { syncBuiltinESMExports } from 'node:module';
import timers from 'node:timers';
import promises from 'node:timers/promises';
import type { Note, Surrounding } from '../../effect/prove/surrounding.ts';
import { swap, swapGetter } from '../../effect/prove/swap.ts';
import { paceTimers } from '../../effect/prove/timers.ts';
import { isCalledByNode } from './called-by-node.ts';

/** The engine's own switches: a thread may not start with others. */
const OF_THE_ENGINE = /^NODE_/;
/** What a process is said to be where the machine is another. */
const OTHER = {
  pid: 9041,
  ppid: 9024,
  platform: 'sunos',
  arch: 'mips',
  version: 'v99.9.9',
  execPath: '/elsewhere/node',
  title: 'elsewhere',
} as const;
const NUMBERS = { pid: 4373, ppid: 4356 } as const;
/** What it answers about itself. */
const ASKED = ['cwd', 'memoryUsage', 'cpuUsage', 'resourceUsage', 'getuid'] as const;

/** Pins what a process says of itself: its environment, its numbers, its clocks. @returns What puts all back. */
export function pinProcess(elsewhere: readonly Surrounding[], note: Note): (() => void)[] {
  const isMoved = (name: Surrounding) => elsewhere.includes(name);
  const noted = (key: string) => note({ sort: 'machine', name: `process.${key}` });
  return [
    ...pinFacts(isMoved('machine'), noted),
    ...watchAsked(noted),
    pinEnvironment(isMoved('environment'), note),
    ...pinClocks(isMoved('clock') ? 7e9 : 1e9, note),
    ...paceModules(elsewhere, note),
  ];
}

/** Timers of the modules of Node, which stand beside those that every platform has. */
function paceModules(elsewhere: readonly Surrounding[], note: Note): (() => void)[] {
  const undone = [
    ...paceTimers(timers as never, { setTimeout: 1, setInterval: 1 }, elsewhere, note),
    ...paceTimers(promises as never, { setTimeout: 0, setInterval: 0 }, elsewhere, note),
    ...paceTimers(promises.scheduler as never, { wait: 0 }, elsewhere, note, 'scheduler.wait'),
  ];
  syncBuiltinESMExports();
  return [syncBuiltinESMExports, ...undone];
}

function pinFacts(isMoved: boolean, noted: (key: string) => void): (() => void)[] {
  const here: Readonly<Record<string, unknown>> = { ...process, ...NUMBERS };
  return Object.entries(OTHER).map(([key, other]) => {
    const own = here[key];
    const get = (): unknown => {
      if (isCalledByNode(get)) return own;
      noted(key);
      return isMoved ? other : own;
    };
    return swapGetter(process, key, get);
  });
}

/** They answer as ever; only that they were asked is noted, and it tells why two copies differ. */
function watchAsked(noted: (key: string) => void): (() => void)[] {
  return ASKED.map((key) => {
    const original = process[key] as (...given: unknown[]) => unknown;
    const watched = (...given: unknown[]): unknown => {
      if (!isCalledByNode(watched)) noted(key);
      return original.apply(process, given);
    };
    return swap(process, key, Object.assign(watched, original));
  });
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
