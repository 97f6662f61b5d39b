import { cpuUsage, memoryUsage } from 'node:process';
import { BREAKS, Failed } from '../../effect/prove/failed.ts';
import type { CheckName, Verdict } from '../../effect/prove/report.ts';
import { HOME, type Trial } from '../../effect/prove/trial.ts';
import { describeThrown, type Stage } from '../../effect/runner.ts';
import { cancelled } from '../../effect/setting.ts';
import { spokenValue } from '../../effect/value.ts';
import { KeptThread, type ThreadEnd } from './kept-thread.ts';
import type { LeftBehind } from './left-behind.ts';
import { V8_HEAP_MEGABYTES } from './limits.ts';
import { type CheckAnswer, type CheckOrder, isCheckAnswer } from './prove-orders.ts';

/** What a check, and a proof, may take. */
export interface CheckLimits {
  /** Longest time of one call into the effect. */
  readonly seconds: number;
  /** MB that the process may grow by during one check. */
  readonly megabytes: number;
  /** Longest time of the whole proof of an effect. */
  readonly proofSeconds: number;
}

export const CHECK_LIMITS: CheckLimits = { seconds: 60, megabytes: 1024, proofSeconds: 300 };

const WATCH_MS = 50;
/** Of the time that passes, what the process gets of the processor at the least where it works and is only held up. */
const HELD_UP = 0.03;
/** How many times as long a call may take on a machine that holds it up. */
const MOST_TIMES = 10;

/** A thread for the checks of one effect, whose time begins with it. A check that has to be stopped costs the thread; the next has a fresh one. */
export class ProveThread {
  readonly #url: URL;
  readonly #limits: CheckLimits;
  /** When the proof has to be over, as `performance.now` counts. */
  readonly #end: number;
  #thread?: KeptThread<CheckOrder, CheckAnswer>;
  /** Who hears of the check that is running. */
  #listener?: Listener;
  #running?: CheckName;
  /** What checks that had ended left behind. */
  readonly #late = new Map<CheckName, Verdict>();

  constructor(url: URL, limits: CheckLimits) {
    this.#url = url;
    this.#limits = limits;
    this.#end = performance.now() + limits.proofSeconds * 1000;
  }

  /**
   * Runs one check. A hang, a flood of memory or the end of the thread is the verdict of that check; where
   * the time of the proof is over, it is not reached.
   */
  async run(order: CheckOrder, signal?: AbortSignal): Promise<Verdict> {
    this.#running = order.check;
    const verdict = await this.#watch(order, signal);
    this.#running = undefined;
    // A check that failed or was stopped may leave behind what would spoil the next one.
    if (verdict.status === 'failed' || verdict.status === 'not reached') await this.close();
    return verdict;
  }

  /** The verdict of a check that had ended when an error came of what it left behind. */
  lateVerdict(check: CheckName): Verdict | undefined {
    return this.#late.get(check);
  }

  async close(): Promise<void> {
    const thread = this.#thread;
    this.#thread = undefined;
    await thread?.stop();
  }

  #watch(order: CheckOrder, signal?: AbortSignal): Promise<Verdict> {
    if (signal?.aborted) return Promise.reject(cancelled());
    const thread = (this.#thread ??= this.#hire());
    const before = memoryUsage.rss();
    let called = callClock();
    let last: { trial: Trial; stage: Stage } | undefined;
    return new Promise((resolve, reject) => {
      const settle = (act: () => void) => {
        clearInterval(watch);
        this.#listener = undefined;
        signal?.removeEventListener('abort', stop);
        act();
      };
      const give = (verdict: Verdict) => settle(() => resolve(verdict));
      const stop = () => settle(() => void this.close().then(() => reject(cancelled())));
      const watch = setInterval(() => {
        const excess = excessOf(called(), memoryUsage.rss() - before, this.#limits);
        if (excess) give(stopped(last, excess));
        else if (performance.now() > this.#end) give(this.#notReached());
      }, WATCH_MS);
      this.#listener = {
        hear(answer) {
          if (answer.kind === 'trying') [last, called] = [answer, callClock()];
          else if (answer.kind === 'verdict') give(answer.verdict);
          else if (answer.kind === 'left') give(leftBehind(answer.left));
          else settle(() => reject(new Error(answer.message)));
        },
        lose: (end) => give(stopped(last, ended(end))),
      };
      signal?.addEventListener('abort', stop, { once: true });
      thread.give(order);
    });
  }

  /** What an earlier check left behind is no business of the one that runs. */
  #hear(answer: CheckAnswer): void {
    const owner = answer.kind === 'left' ? answer.left.check : undefined;
    if (answer.kind === 'left' && owner !== undefined && owner !== this.#running)
      this.#late.set(owner, leftBehind(answer.left));
    else this.#listener?.hear(answer);
  }

  #notReached(): Verdict {
    return { status: 'not reached', note: `the ${this.#limits.proofSeconds} s of the proof were over` };
  }

  #hire(): KeptThread<CheckOrder, CheckAnswer> {
    const keeper = {
      isAnswer: isCheckAnswer,
      isLast: ({ kind }: CheckAnswer) => kind === 'verdict' || kind === 'broken',
      hear: (answer: CheckAnswer) => this.#hear(answer),
      // Work that a check left behind may end the thread before the next one asks for it.
      lose: (end: ThreadEnd<CheckOrder>) => {
        this.#thread = undefined;
        this.#listener?.lose(end);
      },
    };
    return new KeptThread(this.#url, keeper, { limits: { maxOldGenerationSizeMb: V8_HEAP_MEGABYTES } });
  }
}

/**
 * ms that a call has taken from now on: by the processor where it is at work, so that a machine that is busy elsewhere
 * makes no hang of it; by the clock where it only waits.
 */
function callClock(): () => number {
  const started = performance.now();
  const before = cpuUsage();
  return () => {
    const passed = performance.now() - started;
    const { user, system } = cpuUsage(before);
    const worked = (user + system) / 1000;
    if (worked < HELD_UP * passed) return passed;
    return Math.max(Math.min(worked, passed), passed / MOST_TIMES);
  };
}

interface Listener {
  hear(answer: CheckAnswer): void;
  lose(end: ThreadEnd<CheckOrder>): void;
}

interface Excess {
  readonly expected: string;
  readonly received: string;
  readonly remedy: string;
}

function excessOf(ms: number, bytes: number, { seconds, megabytes }: CheckLimits): Excess | undefined {
  if (ms > seconds * 1000) {
    return {
      expected: `an end within ${seconds} s`,
      received: 'none: it was still at it and was stopped',
      remedy:
        'Look for a loop that does not end for this setting, or for work that grows with the size of the box.',
    };
  }
  if (bytes > megabytes * 2 ** 20) {
    return {
      expected: `at most ${megabytes} MB of memory`,
      received: 'more, and it was stopped',
      remedy:
        'Look for arrays that grow without end, or are kept from one call to the next, and for lists of objects in prepare, which take ten times the room of typed arrays, also where they are dropped again.',
    };
  }
  return undefined;
}

function ended({ reason, cause }: ThreadEnd<CheckOrder>): Excess {
  const words = cause === undefined ? reason : describeThrown(cause);
  return {
    expected: 'an answer',
    received: `the end of its thread (${words.replace(/\.$/, '')})`,
    remedy: 'An effect must not end the program, nor leave work behind that fails later.',
  };
}

/** Whoever left it is named by its setting; where nobody is known, whatever ran meets it. */
function leftBehind({ check, trial = HOME, stage, words }: LeftBehind): Verdict {
  const { failure } = new Failed(trial, {
    expected: 'nothing to be left behind that fails later',
    received: `${words}, ${check === undefined ? 'of which it is not known what left it behind' : `left behind by ${stage ?? 'load'}`}`,
    remedy: 'Clear timers, and await or catch every promise, before prepare and paint return.',
  });
  return { status: 'failed', failure };
}

function stopped(last: { trial: Trial; stage: Stage } | undefined, excess: Excess): Verdict {
  const { trial, stage } = last ?? { trial: HOME, stage: 'load' as const };
  const { failure } = new Failed(trial, {
    ...excess,
    expected: `${excess.expected} of ${stage}`,
    remedy: `${ofValues(trial)}${excess.remedy}`,
    breaks: BREAKS.hang,
  });
  return { status: 'failed', failure };
}

/** Where it is not at its defaults, what it was stopped at. */
function ofValues({ parameters }: Trial): string {
  const values = Object.entries(parameters).map(([name, value]) => `${name}=${spokenValue(value)}`);
  return values.length > 0 ? `It was at ${values.join(', ')}. ` : '';
}
