import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { AnyEffect } from '../../effect/effect.ts';
import { type BenchOptions, openBench, thrown } from '../../effect/prove/bench.ts';
import { checkOf, runCheck } from '../../effect/prove/prove.ts';
import type { Verdict } from '../../effect/prove/report.ts';
import { layTrapsForGood } from '../../effect/prove/traps.ts';
import { HOME } from '../../effect/prove/trial.ts';
import { hearLeftBehind, noteTrial, runKnown } from './left-behind.ts';
import type { CheckAnswer, CheckOrder } from './prove-orders.ts';
import { takeGift } from './worker-gift.ts';
import { lockRemedy } from './worker-lock-fault.ts';
import { lockBefore } from './worker-lock-thread.ts';
import { turnOutputAside } from './worker-output.ts';

const { line } = takeGift<CheckOrder, CheckAnswer>();
/** Taken before a check watches who reads the clock. */
const now = performance.now.bind(performance);
const memoryUsage = process.memoryUsage.bind(process);

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

turnOutputAside();
layTrapsForGood();
hearLeftBehind((left) => line.say({ kind: 'left', left }));

/** Bytes of this thread that are still reachable: its heap, and the arrays outside. */
function memory(): number {
  collectGarbage();
  const { heapUsed, external } = memoryUsage();
  return heapUsed + external;
}

line.hear(async (order) => {
  try {
    line.say({ kind: 'verdict', verdict: await runKnown(order.check, () => carryOut(order)) });
  } catch (error) {
    const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
    line.say({ kind: 'broken', message });
  }
});

async function carryOut({ moduleUrl, check, quick, presets }: CheckOrder): Promise<Verdict> {
  const options: BenchOptions = {
    quick,
    presets,
    now,
    memory,
    onTrying(trial, stage) {
      noteTrial(trial, stage);
      line.say({ kind: 'trying', trial, stage });
    },
    remedyFor: lockRemedy,
  };
  lockBefore(moduleUrl, undefined);
  let effect: AnyEffect;
  try {
    effect = (await import(moduleUrl)).default;
  } catch (error) {
    return { status: 'failed', failure: thrown(options, HOME, 'load', error).failure };
  }
  return runCheck(openBench(effect, options), checkOf(check));
}
