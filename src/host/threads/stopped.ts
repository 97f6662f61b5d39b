import type { RunStamp, Stage } from '../../effect/runner.ts';
import { Fault } from '../../fault.ts';
import type { EffectOrder } from '../../render/orders.ts';
import type { Order } from './messages.ts';

interface Stopped {
  readonly received: string;
  readonly remedy: string;
  readonly cause?: unknown;
}

/** The Fault for an effect that could not answer for itself: it hung, its thread died, or it took too much. */
export function stoppedFault(
  order: Order,
  at: { readonly stage: Stage; readonly step: number },
  { received, remedy, cause }: Stopped,
): Fault {
  if (order.kind === 'describe') {
    const details = { stage: 'load' as const, place: order.place };
    const expected = 'a module that loads';
    return new Fault({ kind: 'effect', expected, subject: order.place, received, remedy, details, cause });
  }
  if (order.kind === 'soften' || order.kind === 'gather') {
    // No effect runs then: only the thread itself can fail, for want of memory.
    const expected = `a thread to ${order.kind === 'soften' ? 'soften the artwork for bleeding' : 'draw the artwork'}`;
    return new Fault({ kind: 'effect', expected, subject: 'a render', received, remedy, cause });
  }
  const effect: EffectOrder = order.kind === 'prepare' ? order.effect : order.pass.steps[at.step];
  const { name, version, parameters, seed } = effect;
  const stamp: RunStamp = { stage: at.stage, parameters, seed };
  return new Fault({
    kind: 'effect',
    expected: `${at.stage} to finish`,
    subject: `effect ${name} ${version}`,
    received,
    remedy: `${remedy} It ran with seed ${seed} and parameters ${JSON.stringify(parameters)}.`,
    details: { effect: name, version, ...stamp },
    cause,
  });
}
