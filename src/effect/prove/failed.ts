import type { Failure, ProofPicture } from './report.ts';
import type { Trial } from './trial.ts';

export interface FailureParts {
  /** What the contract says, e.g. `the same floats one repeat further on`. */
  readonly expected: string;
  readonly received: string;
  /** What to do: a whole sentence. */
  readonly remedy: string;
  readonly picture?: ProofPicture;
  /** Another setting, where only both together show the fault. */
  readonly beside?: Trial;
}

/** Thrown where a check finds a fault; the kit turns it into a verdict. */
export class Failed extends Error {
  readonly failure: Failure;

  constructor(setting: Trial, { expected, received, remedy, picture, beside }: FailureParts) {
    const sentence = `Expected ${expected}, but received ${received}. ${remedy}`;
    super(sentence);
    this.name = 'Failed';
    this.failure = { sentence, expected, received, remedy, setting, picture, beside };
  }
}

/** Thrown where an effect refuses a setting in plain words (a Fault of kind `usage`), which it may. */
export class Refused extends Error {
  readonly trial: Trial;

  constructor(trial: Trial, cause: Error) {
    super(cause.message, { cause });
    this.name = 'Refused';
    this.trial = trial;
  }
}
