import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort, workerData } from 'node:worker_threads';
import { openBench } from '../../effect/prove/bench.ts';
import { checkOf, runCheck } from '../../effect/prove/prove.ts';
import type { Verdict } from '../../effect/prove/report.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';
import { type CopyTask, runInFreshThread } from './copy-thread.ts';
import { serveCopy } from './copy-worker.ts';
import type { CheckAnswer, CheckOrder } from './prove-orders.ts';

const port = parentPort!;
const say = (answer: CheckAnswer) => port.postMessage(answer);
/** Taken before a plugin runs, and before a check watches who reads the clock. */
const now = performance.now.bind(performance);
const memoryUsage = process.memoryUsage.bind(process);

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/** Bytes of this thread that are still reachable: its heap, and the arrays outside. */
function memory(): number {
  collectGarbage();
  const { heapUsed, external } = memoryUsage();
  return heapUsed + external;
}

async function answer(order: CheckOrder): Promise<void> {
  try {
    say({ kind: 'verdict', verdict: await carryOut(order) });
  } catch (error) {
    const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
    say({ kind: 'broken', message });
  }
}

async function carryOut({ moduleUrl, check, quick, presets }: CheckOrder): Promise<Verdict> {
  const effect = (await import(moduleUrl)).default;
  const onTrying = (trial: Trial, stage: Stage) => say({ kind: 'trying', trial, stage });
  const bench = openBench(effect, {
    quick,
    presets,
    now,
    memory,
    onTrying,
    runCopy: (order, elsewhere) =>
      runInFreshThread(new URL(import.meta.url), { moduleUrl, order, elsewhere }, onTrying),
  });
  return runCheck(bench, checkOf(check));
}

// Started with a task, the same file serves one copy of an effect that a check asked for, and nothing else.
if (workerData) await serveCopy(workerData as CopyTask);
else port.on('message', answer);
