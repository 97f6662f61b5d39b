import { syncBuiltinESMExports } from 'node:module';
import timers from 'node:timers';
import { swap } from '../../effect/prove/swap.ts';

const STARTED = ['setTimeout', 'setInterval', 'setImmediate'] as const;
const ENDED = ['clearTimeout', 'clearInterval', 'clearImmediate'] as const;

type Call = (...given: unknown[]) => unknown;

/** Whatever may still be to come, with the name of what it was started by. */
type Running = Map<unknown, string>;

export interface WatchedTimers {
  /** What is still to come, by the names of what it was started by. */
  running(): string[];
  restore(): void;
}

/** Watches which timers are started in this thread and neither run out nor cleared. */
export function watchTimers(): WatchedTimers {
  const running: Running = new Map();
  const undone = [globalThis, timers].flatMap((holder) => [
    ...STARTED.map((name) => watchStart(holder as never, name, running)),
    ...ENDED.map((name) => watchEnd(holder as never, name, running)),
  ]);
  syncBuiltinESMExports();
  return {
    running: () => [...new Set(running.values())],
    restore() {
      for (const undo of undone.reverse()) undo();
      syncBuiltinESMExports();
    },
  };
}

function watchStart(
  holder: Record<string, Call>,
  name: (typeof STARTED)[number],
  running: Running,
): () => void {
  const original = holder[name];
  const watched = (call: Call, ...rest: unknown[]): unknown => {
    const timer = original(
      (...given: unknown[]) => {
        if (name !== 'setInterval') running.delete(timer);
        return call(...given);
      },
      ...rest,
    );
    running.set(timer, name);
    return timer;
  };
  return swap(holder, name, Object.assign(watched, original));
}

function watchEnd(holder: Record<string, Call>, name: string, running: Running): () => void {
  const original = holder[name];
  return swap(holder, name, (timer: unknown) => {
    running.delete(timer);
    // It may have been written down as a number.
    for (const one of running.keys()) if (Number(one) === timer) running.delete(one);
    return original(timer);
  });
}
