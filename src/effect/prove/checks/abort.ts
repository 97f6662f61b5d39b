import { Fault } from '../../../fault.ts';
import { tryAfterAbort } from '../after-abort.ts';
import type { Bench, Sample } from '../bench.ts';
import { openBudget } from '../budget.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { trySilence } from '../silence.ts';
import { HOME, type Trial } from '../trial.ts';
import { unlessRefused } from '../unless-refused.ts';
import { SKETCHED, thinned, words } from '../vary.ts';

const TRIAL: Trial = { ...HOME, width: 120, height: 96 };
/** Work that takes longer than this must say how far it has come. */
const LONG_MS = 1000;
/** The longest a user should wait for a render to end that was given up. */
const LONGEST_SILENCE_MS = 3000;
/** A busy machine may hold anybody up once. */
const ATTEMPTS = 3;

export const abort: Check = {
  name: 'abort',
  promise:
    'Where prepare takes long it says how far it has come, and ends at once where the render is given up.',
  needs: ['runs', 'state'],
  async run(bench) {
    const course = await follow(bench);
    requireShares(course);
    if (course.calls.length > 0) {
      await tryWords(bench);
      const budget = openBudget(bench, GIVEN_UP_SECONDS);
      for (const trial of LONG) if (!budget.isOver()) await tryGivenUp(bench, trial);
      await tryGivenUp(bench, TRIAL);
    }
    const silence = await shortestSilence(bench, course);
    if (silence !== undefined && silence > LONGEST_SILENCE_MS) throw silent(course, silence);
    const clock = bench.work ?? bench.now;
    const heard = clock && (await trySilence(bench, clock));
    if (course.calls.length > 0)
      return {
        status: 'passed',
        figures: {
          'calls of progress': course.calls.length,
          ...(heard && heard.left > 0 && { 'dearest settings that time was too short for': heard.left }),
        },
      };
    return { status: 'not applicable', note: 'prepare is over before anybody could wait for it' };
  },
};

interface Course {
  readonly calls: readonly number[];
  readonly sample: Sample;
  /** ms; nothing without a clock. */
  readonly ms?: number;
  /** ms of the longest stretch without a call. */
  readonly silence?: number;
}

async function follow(bench: Bench, trial = TRIAL): Promise<Course> {
  const calls: number[] = [];
  const clock = bench.work ?? bench.now;
  const started = clock?.() ?? 0;
  let [last, silence] = [started, 0];
  const beat = () => {
    const now = clock?.() ?? 0;
    silence = Math.max(silence, now - last);
    last = now;
  };
  const sample = await bench.prepare(trial, {
    onProgress: (done) => {
      calls.push(done);
      beat();
    },
  });
  beat();
  return clock ? { sample, calls, ms: last - started, silence } : { sample, calls };
}

/** Only work that is long is held to it, and only where it is silent every time. */
async function shortestSilence(bench: Bench, first: Course): Promise<number | undefined> {
  let { silence } = first;
  if ((first.ms ?? 0) <= LONG_MS) return undefined;
  for (
    let attempt = 1;
    attempt < ATTEMPTS && silence !== undefined && silence > LONGEST_SILENCE_MS;
    attempt++
  ) {
    silence = Math.min(silence, (await follow(bench)).silence ?? silence);
  }
  return silence;
}

function requireShares({ calls, sample: { trial } }: Course): void {
  const wrong = calls.find((done) => !(done >= 0 && done <= 1 + 1e-9));
  const back = calls.findIndex((done, at) => at > 0 && done < calls[at - 1] - LEAST_BACK);
  if (wrong === undefined && back < 0) return;
  throw new Failed(trial, {
    expected: 'progress to be told shares from 0 to 1, each what is done by then of all there is to do',
    received: wrong === undefined ? `${calls[back]} after ${calls[back - 1]}` : String(wrong),
    remedy:
      'Divide what is done by all there is to do, and of work in several parts give each its share of the whole.',
  });
}

/** Two parts may be weighed a little wrong. */
const LEAST_BACK = 0.1;
const QUICK_WORDS = 4;
const MOST_WORDS = 16;

/** Calls of progress at which a render is given up: whoever catches what it throws may do so in some loop alone. */
function placesOf({ calls: { length } }: Course): Set<number> {
  return new Set([0, 0.25, 0.5, 0.75, 1].map((share) => Math.max(1, Math.ceil(share * length))));
}

/** What is spent on them; what is begun by then is ended. */
const GIVEN_UP_SECONDS = { quick: 0.2, whole: 6 };
/** Narrow ones, in which loops by rows or by columns call progress more than once, if seldom. */
const LONG: readonly Trial[] = [
  { ...HOME, layout: 'straight', width: 24, height: 470, quality: 'sketch' },
  { ...HOME, layout: 'straight', width: 470, height: 24, quality: 'sketch' },
];

async function tryGivenUp(bench: Bench, trial: Trial): Promise<void> {
  const course = await unlessRefused(() => follow(bench, trial));
  if (!course) return;
  requireShares(course);
  if (course.calls.length === 0) return;
  // Another seed has not been prepared before: what is kept of it is what the render that was given up has left.
  for (const at of placesOf(course)) {
    const other = { ...trial, seed: `given up ${at}` };
    await giveUp(bench, at, other);
    await tryAfterAbort(bench, other);
  }
}

/** The same with each other option and switch, in a small box. */
async function tryWords(bench: Bench): Promise<void> {
  for (const trial of thinned(words(bench.effect, SKETCHED), bench.quick ? QUICK_WORDS : MOST_WORDS)) {
    const course = await unlessRefused(() => follow(bench, trial));
    if (!course) continue;
    requireShares(course);
    for (const at of course.calls.length > 0 ? placesOf(course) : []) await giveUp(bench, at, trial);
  }
}

/** Gives the render up at the `at`-th call of progress. */
async function giveUp(bench: Bench, at: number, trial = TRIAL): Promise<void> {
  let [asked, later] = [0, 0];
  const isCancelled = () => {
    asked++;
    if (asked > at) later++;
    return asked >= at;
  };
  let error: unknown;
  try {
    await bench.prepare(trial, { isCancelled });
  } catch (caught) {
    error = caught;
  }
  if (Fault.is(error) && error.kind === 'cancelled') return;
  throw new Failed(trial, {
    expected: 'prepare to end with what progress throws when the render is given up',
    received:
      error === undefined
        ? `a model all the same${later ? `, after ${later} more calls of progress` : ''}`
        : reasonOf(error),
    remedy: 'Let what progress throws pass: catch nothing around it, or throw it again.',
  });
}

function reasonOf(error: unknown): string {
  return error instanceof Failed ? error.failure.received : String(error);
}

function silent({ ms }: Course, silence: number): Failed {
  return new Failed(TRIAL, {
    expected: `prepare to call progress at least every ${LONGEST_SILENCE_MS / 1000} s`,
    received: `${(silence / 1000).toFixed(1)} s of silence in the ${((ms ?? silence) / 1000).toFixed(1)} s that it takes`,
    remedy: 'Call progress(done) in the longest loop.',
  });
}
