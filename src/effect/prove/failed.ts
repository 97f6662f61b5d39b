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
  /** The promise that is broken, where it is another than what the check was looking for. */
  readonly breaks?: string;
}

/** Thrown where a check finds a fault; the kit turns it into a verdict. */
export class Failed extends Error {
  readonly failure: Failure;

  constructor(setting: Trial, { expected, received, remedy, picture, beside, breaks }: FailureParts) {
    const sentence = `Expected ${expected}, but received ${received}. ${remedy}`;
    super(sentence);
    this.name = 'Failed';
    this.failure = { sentence, expected, received, remedy, setting, picture, beside, breaks };
  }
}

/** What is broken by something else than what a check was looking for, as sentences of the contract. */
export const BREAKS = {
  crash: 'It prepares and paints whatever the setting, or refuses it in plain words.',
  hang: 'It comes to an end, in bounded time and memory, whatever the setting.',
  unsound: 'All its numbers are finite and within the range of their plane.',
  dice: 'It draws its numbers from the seed alone, never from chance, the clock or the machine it runs on.',
} as const;

/** Thrown where a call into the effect threw: whatever a check was looking for, it is this that went wrong. */
export class Crashed extends Failed {
  constructor(setting: Trial, parts: FailureParts) {
    super(setting, { ...parts, breaks: BREAKS.crash });
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
