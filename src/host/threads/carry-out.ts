import { planesRead } from '../../effect/artwork.ts';
import { checkEffect } from '../../effect/contract.ts';
import type { AnyEffect } from '../../effect/effect.ts';
import { refuseMisspelt } from '../../effect/misspelt.ts';
import { describeThrown, effectFault, runStage } from '../../effect/runner.ts';
import { openSetting } from '../../effect/setting.ts';
import { Fault } from '../../fault.ts';
import { describeEffect, type EffectDescription } from '../../render/description.ts';
import { runGather } from '../../render/gather.ts';
import type {
  EffectOrder,
  GatherOrder,
  PassOrder,
  Prepared,
  PrepareOrder,
  SoftenOrder,
} from '../../render/orders.ts';
import { runPass } from '../../render/pass.ts';
import { arrayBytes, shareModel } from '../../render/share.ts';
import { runSoften } from '../../render/soften.ts';
import { callContext, callEffect } from './calls.ts';
import type { DescribeOrder, Order, Results } from './messages.ts';
import type { Pulse } from './pulse.ts';
import { arePlanes } from './worker-answer.ts';
import { explainLock } from './worker-lock-fault.ts';
import { lockBefore } from './worker-lock-thread.ts';

/** What a thread has besides its order. */
export interface ThreadTools {
  readonly pulse: Pulse;
  /** How the URLs of the host's own effects begin. */
  readonly ownModules?: string;
  /** Memory in MB that an effect may take. */
  readonly megabytes: number;
  readonly isStopped: () => boolean;
  readonly onProgress: (done: number) => void;
}

/** Does what an order asks. Runs in a worker thread: plugin code is imported here and nowhere else. */
export function carryOut(order: Order, tools: ThreadTools): Promise<Results[Order['kind']]> {
  switch (order.kind) {
    case 'describe':
      return describe(order, tools);
    case 'prepare':
      return prepare(order, tools);
    case 'pass':
      return paint(order.pass, tools);
    case 'soften':
      return soften(order, tools);
    case 'gather':
      return gather(order, tools);
  }
}

async function describe({ moduleUrl, place }: DescribeOrder, tools: ThreadTools): Promise<EffectDescription> {
  lockBefore(moduleUrl, tools.ownModules);
  tools.pulse.enter('load');
  let found: unknown;
  try {
    const { task } = callContext.getStore()!;
    found = await callContext.run({ task, place }, async () => (await import(moduleUrl)).default);
  } catch (cause) {
    const fault = new Fault({
      kind: 'effect',
      expected: 'a module that loads',
      subject: place,
      received: describeThrown(cause),
      remedy: 'Mend the module and run again.',
      details: { stack: cause instanceof Error ? cause.stack : undefined },
      cause,
    });
    throw explainLock(fault);
  }
  return describeEffect(checkEffect(found, place));
}

async function prepare(
  { effect: order, box, quality, artwork }: PrepareOrder,
  tools: ThreadTools,
): Promise<Prepared> {
  const { pulse, isStopped } = tools;
  const effect = await loadEffect(order, tools, 0);
  const { parameters, seed, pictures } = order;
  const { setting, reports, unknown } = openSetting(effect, {
    box,
    seed,
    quality,
    parameters,
    pictures,
    artwork: artwork?.artwork,
    onProgress: onlyForward(tools),
    isCancelled: isStopped,
  });
  const model = await callEffect(pulse, order, 'prepare', 0, () =>
    runStage(effect, { stage: 'prepare', parameters, seed }, async () => {
      const made = await effect.prepare(setting);
      refuseMisspelt(unknown, setting.parameters, made);
      return made;
    }),
  );
  const planes = effect.planesFor
    ? callEffect(pulse, order, 'planesFor', 0, () =>
        runStage(effect, { stage: 'planesFor', parameters, seed }, () =>
          effect.planesFor!(setting.parameters),
        ),
      )
    : effect.planes;
  if (!arePlanes(planes)) throw strangePlanes(order, planes);
  return sendable(order, { model, planes, reads: planesRead(effect), reports }, tools.megabytes);
}

/** A thousandth is the least that counts, so that an endless loop which reports is still found to stand. */
function onlyForward({ pulse, onProgress }: ThreadTools): (done: number) => void {
  let last = -1;
  return (done) => {
    const now = Math.floor(Math.min(1, done) * 1000);
    if (!(now > last)) return;
    last = now;
    pulse.beat();
    onProgress(done);
  };
}

/** A model that cannot be sent (a function, a class with secrets) is the effect's fault, not the host's. */
function sendable(order: EffectOrder, result: Prepared, megabytes: number): Prepared {
  const { parameters, seed } = order;
  const refusal = (reason: Error) => effectFault(order, { stage: 'prepare', parameters, seed }, reason);
  const lent = Object.values(order.pictures ?? {}).map(({ samples }) => samples.buffer);
  const own = arrayBytes(result.model, lent);
  const size = own / MEGABYTE;
  if (size > megabytes) {
    const words = `a model of ${Math.round(size)} MB, where an effect may take ${megabytes}`;
    throw refusal(new RangeError(`${words}; if it really needs more, raise --memory-limit`));
  }
  try {
    const model = shareModel(result.model);
    structuredClone({ ...result, model });
    return { ...result, model, lentBytes: arrayBytes(model) - own };
  } catch (error) {
    throw refusal(new TypeError(`the model is not plain data: ${(error as Error).message}`));
  }
}

const MEGABYTE = 1 << 20;

function strangePlanes(order: EffectOrder, planes: unknown): Fault {
  const { parameters, seed } = order;
  const reason = new TypeError(
    `it gave ${describeThrown(planes).replace(/^a thrown /, 'a ')}, not a list of planes`,
  );
  return effectFault(order, { stage: 'planesFor', parameters, seed }, reason);
}

async function paint(pass: PassOrder, tools: ThreadTools): Promise<Results['pass']> {
  const { pulse, isStopped, onProgress } = tools;
  const effects = await Promise.all(pass.steps.map((step, index) => loadEffect(step, tools, index)));
  return runPass(pass, effects, {
    call: (step, call) => callEffect(pulse, pass.steps[step], 'paint', step, call),
    isStopped,
    onRows: onProgress,
  });
}

async function soften(order: SoftenOrder, { isStopped }: ThreadTools): Promise<undefined> {
  runSoften(order, isStopped);
}

async function gather(order: GatherOrder, { isStopped }: ThreadTools): Promise<undefined> {
  runGather(order, isStopped);
}

async function loadEffect(order: EffectOrder, tools: ThreadTools, step: number): Promise<AnyEffect> {
  const { moduleUrl, parameters, seed } = order;
  lockBefore(moduleUrl, tools.ownModules);
  const load = async (): Promise<AnyEffect> => (await import(moduleUrl)).default;
  return callEffect(tools.pulse, order, 'load', step, async () => {
    try {
      return await load();
    } catch (error) {
      throw effectFault(order, { stage: 'load', parameters, seed }, error);
    }
  });
}
