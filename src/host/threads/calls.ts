import { AsyncLocalStorage } from 'node:async_hooks';
import { describeThrown, effectFault, type Stage } from '../../effect/runner.ts';
import { Fault } from '../../fault.ts';
import type { EffectOrder } from '../../render/orders.ts';
import type { Pulse } from './pulse.ts';
import { explainLock } from './worker-lock-fault.ts';

/** Whose call is running, also in whatever it left behind for later. */
interface CallContext {
  readonly task: number;
  readonly effect?: EffectOrder;
  readonly stage?: Stage;
  /** Where the module came from that is being loaded. */
  readonly place?: string;
}

export const callContext = new AsyncLocalStorage<CallContext>();

/** Calls into an effect: the pulse tells the host, and what goes wrong later can still be laid at its door. */
export function callEffect<T>(
  pulse: Pulse,
  effect: EffectOrder,
  stage: Stage,
  step: number,
  call: () => T,
): T {
  pulse.enter(stage, step);
  const { task } = callContext.getStore()!;
  return callContext.run({ task, effect, stage }, () => explainingLocks(call));
}

function explainingLocks<T>(call: () => T): T {
  const rethrow = (error: unknown) => {
    throw Fault.is(error) ? explainLock(error) : error;
  };
  try {
    const result = call();
    return result instanceof Promise ? (result.catch(rethrow) as T) : result;
  } catch (error) {
    return rethrow(error) as never;
  }
}

/**
 * Reports what no call was there to catch: an error thrown by a timer, a promise that nobody awaits,
 * a call of process.exit.
 */
export function catchStrays(onStray: (stray: Stray) => void): void {
  const report = (error: unknown, isEnding = false) => {
    const context = callContext.getStore();
    onStray({ task: context?.task, isEnding, fault: strayFault(context, error) });
  };
  process.on('uncaughtException', (error) => report(error));
  process.on('unhandledRejection', (error) => report(error));
  process.on('exit', (code) => report(new ExitCall(`process.exit(${code}) called`), true));
}

interface Stray {
  /** The render it was left behind by, where that is known. */
  readonly task: number | undefined;
  /** True where the thread comes to its end by it. */
  readonly isEnding: boolean;
  readonly fault: Fault;
}

/** So named for the message: `received ExitCall: process.exit(0) called`. */
class ExitCall extends Error {
  override name = 'ExitCall';
}

function strayFault(context: CallContext | undefined, error: unknown): Fault {
  const effect = context?.effect;
  if (effect && context.stage) {
    const { parameters, seed } = effect;
    return explainLock(effectFault(effect, { stage: context.stage, parameters, seed }, error));
  }
  return explainLock(
    new Fault({
      kind: 'effect',
      expected: 'a module that loads',
      subject: context?.place ?? 'a plugin',
      received: describeThrown(error),
      remedy: 'Mend the module and run again.',
      cause: error,
    }),
  );
}
