import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import { openBench } from '../../effect/prove/bench.ts';
import { checkOf, runCheck } from '../../effect/prove/prove.ts';
import type { Verdict } from '../../effect/prove/report.ts';
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

port.on('message', async (order: CheckOrder) => {
  try {
    say({ kind: 'verdict', verdict: await carryOut(order) });
  } catch (error) {
    const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
    say({ kind: 'broken', message });
  }
});

async function carryOut({ moduleUrl, check, quick, presets }: CheckOrder): Promise<Verdict> {
  const effect = (await import(moduleUrl)).default;
  const bench = openBench(effect, {
    quick,
    presets,
    now,
    memory,
    onTrying: (trial, stage) => say({ kind: 'trying', trial, stage }),
  });
  return runCheck(bench, checkOf(check));
}
