import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { AnyEffect } from '../../effect/effect.ts';
import {
  type Bench,
  type BenchOptions,
  type Footprint,
  openBench,
  thrown,
} from '../../effect/prove/bench.ts';
import type { RunCopy } from '../../effect/prove/copy.ts';
import { checkOf, runCheck } from '../../effect/prove/prove.ts';
import type { Verdict } from '../../effect/prove/report.ts';
import { layTrapsForGood } from '../../effect/prove/traps.ts';
import { HOME, type Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';
import type { CopyMessage, CopyTask } from './copy-orders.ts';
import { copiesInThreads } from './copy-threads.ts';
import { serveCopies } from './copy-worker.ts';
import { hearLeftBehind, noteTrial, runKnown } from './left-behind.ts';
import type { CheckAnswer, CheckOrder } from './prove-orders.ts';
import { workClock } from './work-clock.ts';
import { type HostLine, takeGift } from './worker-gift.ts';
import { lockRemedy } from './worker-lock-fault.ts';
import { lockBefore } from './worker-lock-thread.ts';
import { turnOutputAside } from './worker-output.ts';

/** Taken before a check watches who reads the clock. */
const now = performance.now.bind(performance);
const memoryUsage = process.memoryUsage.bind(process);
const cpuUsage = process.cpuUsage.bind(process);
const resourceUsage = process.resourceUsage.bind(process);

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/** Of the one effect that this thread is for. */
let runCopy: RunCopy | undefined;

/** A thread serves one proof. */
let bench: Bench | undefined;

/** Bytes of this thread that are still reachable: its heap, and the arrays outside. */
function memory(): number {
  collectGarbage();
  const { heapUsed, external } = memoryUsage();
  return heapUsed + external;
}

function footprint(): Footprint {
  const { heapUsed, external, rss } = memoryUsage();
  return { process: rss, highest: resourceUsage().maxRSS * 1024, thread: heapUsed + external };
}

/** What the processor has done for the process, but never more than the time that passed: a quick proof has two hands. */
const work = workClock(now, cpuUsage);

function serveChecks(line: Line): void {
  layTrapsForGood();
  hearLeftBehind((left) => line.say({ kind: 'left', left }));
  line.hear(async (order) => {
    try {
      line.say({ kind: 'verdict', verdict: await runKnown(order.check, () => carryOut(order, line)) });
    } catch (error) {
      const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
      line.say({ kind: 'broken', message });
    }
  });
}

type Line = HostLine<CheckOrder, CheckAnswer>;

async function carryOut({ moduleUrl, check, quick, presets }: CheckOrder, line: Line): Promise<Verdict> {
  const onTrying = (trial: Trial, stage: Stage) => {
    noteTrial(trial, stage);
    line.say({ kind: 'trying', trial, stage });
  };
  const options: BenchOptions = {
    quick,
    presets,
    now,
    memory,
    work,
    footprint,
    onTrying,
    remedyFor: lockRemedy,
    runCopy: (runCopy ??= copiesInThreads(new URL(import.meta.url), moduleUrl, onTrying)),
  };
  lockBefore(moduleUrl, undefined);
  let effect: AnyEffect;
  try {
    effect = (await import(moduleUrl)).default;
  } catch (error) {
    return { status: 'failed', failure: thrown(options, HOME, 'load', error).failure };
  }
  // The checks of one proof share what was prepared.
  bench ??= openBench(effect, options);
  return runCheck(bench, checkOf(check));
}

turnOutputAside();
const { line, isForCopies } = takeGift<never, never, { readonly isForCopies?: boolean }>();
if (isForCopies) serveCopies(line as HostLine<CopyTask, CopyMessage>);
else serveChecks(line as Line);
