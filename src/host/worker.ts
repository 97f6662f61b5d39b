import { parentPort } from 'node:worker_threads';
import type { AnyEffect } from '../effect/effect.ts';
import { effectFault, runStage } from '../effect/runner.ts';
import { openSetting } from '../effect/setting.ts';
import { Fault } from '../fault.ts';
import type { Answer, EffectOrder, Order, Prepared } from './orders.ts';
import { runPass } from './pass.ts';
import { shareModel } from './share.ts';

const port = parentPort!;

port.on('message', async ({ id, order }: { id: number; order: Order }) => {
  const say = (answer: Answer) => port.postMessage(answer);
  try {
    if (order.kind === 'prepare') {
      const result = await prepare(order, (done) => say({ id, kind: 'progress', done }));
      sendPrepared(id, order.effect, result);
    } else {
      const effects = await Promise.all(order.pass.steps.map(loadEffect));
      await runPass(order.pass, effects, (rows) => say({ id, kind: 'progress', done: rows }));
      say({ id, kind: 'done' });
    }
  } catch (error) {
    say({ id, kind: 'fault', fault: faultOf(error) });
  }
});

async function prepare(
  { effect: order, box, quality }: Extract<Order, { kind: 'prepare' }>,
  onProgress: (done: number) => void,
): Promise<Prepared> {
  const effect = await loadEffect(order);
  const { parameters, seed } = order;
  const { setting, reports } = openSetting(effect, { box, seed, quality, parameters, onProgress });
  const model = await runStage(effect, { stage: 'prepare', parameters, seed }, () => effect.prepare(setting));
  const planes = effect.planesFor
    ? runStage(effect, { stage: 'planesFor', parameters, seed }, () => effect.planesFor!(setting.parameters))
    : effect.planes;
  return { model, planes, reports };
}

/** A model that cannot be sent (a function, a class with secrets) is the effect's fault, not the host's. */
function sendPrepared(id: number, order: EffectOrder, result: Prepared): void {
  try {
    const model = shareModel(result.model);
    port.postMessage({ id, kind: 'done', result: { ...result, model } } satisfies Answer);
  } catch (error) {
    const name = order.moduleUrl.split('/').at(-1) ?? 'an effect';
    const stamp = { stage: 'prepare' as const, parameters: order.parameters, seed: order.seed };
    throw effectFault(
      { name, version: '' },
      stamp,
      new Error(`the model is not plain data: ${(error as Error).message}`),
    );
  }
}

async function loadEffect({ moduleUrl }: EffectOrder): Promise<AnyEffect> {
  return (await import(moduleUrl)).default;
}

function faultOf(error: unknown) {
  if (Fault.is(error)) return error.toJSON();
  const received = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return new Fault({
    kind: 'effect',
    expected: 'the worker to finish',
    subject: 'a render',
    received,
  }).toJSON();
}
