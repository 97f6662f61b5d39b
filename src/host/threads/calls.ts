import { AsyncLocalStorage } from 'node:async_hooks';
import { describeThrown, effectFault, type Stage } from '../../effect/runner.ts';
import { Fault } from '../../fault.ts';
import type { EffectOrder } from '../../render/orders.ts';
import type { Pulse } from './pulse.ts';

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
  return callContext.run({ task, effect, stage }, call);
}

/**
 * Reports what no call was there to catch: an error thrown by a timer, a promise that nobody awaits,
 * a call of process.exit.
 */
export function catchStrays(onStray: (task: number | undefined, fault: Fault) => void): void {
  const report = (error: unknown) => {
    const context = callContext.getStore();
    onStray(context?.task, strayFault(context, error));
  };
  process.on('uncaughtException', report);
  process.on('unhandledRejection', report);
  process.on('exit', (code) => report(new ExitCall(`process.exit(${code}) called`)));
}

/** So named for the message: `received ExitCall: process.exit(0) called`. */
class ExitCall extends Error {
  override name = 'ExitCall';
}

function strayFault(context: CallContext | undefined, error: unknown): Fault {
  const effect = context?.effect;
  if (effect && context.stage) {
    const { parameters, seed } = effect;
    return effectFault(effect, { stage: context.stage, parameters, seed }, error);
  }
  return new Fault({
    kind: 'effect',
    expected: 'a module that loads',
    subject: context?.place ?? 'a plugin',
    received: describeThrown(error),
    remedy: 'Mend the module and run again.',
    cause: error,
  });
}
