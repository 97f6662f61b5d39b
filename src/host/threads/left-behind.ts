import { AsyncLocalStorage } from 'node:async_hooks';
import type { CheckName } from '../../effect/prove/report.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import { describeThrown, type Stage } from '../../effect/runner.ts';

/** What a check was trying when it left work behind: a timer, a promise that nobody awaits. */
interface Tried {
  readonly check: CheckName;
  readonly trial?: Trial;
  readonly stage?: Stage;
}

/** An error that no call was there to catch, and whose it is, where that is known. */
export interface LeftBehind extends Partial<Tried> {
  readonly words: string;
}

/** Follows what is tried into whatever it leaves behind for later. */
const tried = new AsyncLocalStorage<Tried>();
const nextTurn = setImmediate;

/** Tells of every error in this thread that no call was there to catch; the thread goes on. */
export function hearLeftBehind(tell: (left: LeftBehind) => void): void {
  const report = (error: unknown) => tell({ ...tried.getStore(), words: describeThrown(error) });
  process.on('uncaughtException', report);
  process.on('unhandledRejection', report);
}

/** Runs a check, and gives what it leaves for the next turn the time to fail while it is still its own. */
export function runKnown<T>(check: CheckName, run: () => Promise<T>): Promise<T> {
  return tried.run({ check }, async () => {
    const result = await run();
    await new Promise((done) => nextTurn(done));
    return result;
  });
}

/** What is left behind from here on belongs to this trial. */
export function noteTrial(trial: Trial, stage: Stage): void {
  const known = tried.getStore();
  if (known) tried.enterWith({ check: known.check, trial, stage });
}
