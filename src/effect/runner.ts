import { Fault } from '../fault.ts';
import type { AnyEffect } from './effect.ts';

/** The parts of an effect that the host calls. */
export type Stage = 'load' | 'planesFor' | 'prepare' | 'paint';

/** What a failure is stamped with, so that it can be made to happen again. */
export interface RunStamp {
  readonly stage: Stage;
  readonly parameters: Readonly<Record<string, unknown>>;
  readonly seed: string;
}

/**
 * Runs one call into an effect. Every such call goes through here: whatever it throws, a string
 * included, comes out as a Fault (effect) that names effect, version, stage, parameters and seed.
 * Faults of kind `cancelled` and `usage` pass unchanged: they are the host's and the user's own.
 */
export function runStage<T>(effect: AnyEffect, stamp: RunStamp, call: () => T): T {
  try {
    const result = call();
    return result instanceof Promise ? (result.catch(rethrow) as T) : result;
  } catch (error) {
    return rethrow(error);
  }

  function rethrow(error: unknown): never {
    if (Fault.is(error) && (error.kind === 'cancelled' || error.kind === 'usage')) throw error;
    throw effectFault(effect, stamp, error);
  }
}

/** The Fault for a failure of an effect at a stage. */
export function effectFault(
  effect: Pick<AnyEffect, 'name' | 'version'>,
  stamp: RunStamp,
  error: unknown,
): Fault {
  return new Fault({
    kind: 'effect',
    expected: `${stamp.stage} to finish`,
    subject: `effect ${effect.name} ${effect.version}`,
    received: describeThrown(error),
    remedy: `This is a fault of the effect; report it to its author with seed ${stamp.seed} and parameters ${JSON.stringify(stamp.parameters)}.`,
    details: {
      effect: effect.name,
      version: effect.version,
      ...stamp,
      stack: error instanceof Error ? error.stack : undefined,
    },
    cause: error,
  });
}

/** Whatever was thrown, in words: plugins throw strings, null and objects that cannot be printed. */
export function describeThrown(thrown: unknown): string {
  try {
    if (thrown instanceof Error) return `${thrown.name}: ${thrown.message}`;
    return thrown === null ? 'a thrown null' : `a thrown ${typeof thrown}: ${String(thrown)}`;
  } catch {
    return `a thrown ${typeof thrown} that cannot be printed`;
  }
}

/**
 * What is painted later would miss its band, and would do so in silence.
 *
 * @throws TypeError for a promise.
 */
export function refusePromise(result: unknown): void {
  if (typeof (result as PromiseLike<unknown> | undefined)?.then !== 'function') return;
  throw new TypeError('paint returned a promise; it has to fill the planes before it returns');
}
