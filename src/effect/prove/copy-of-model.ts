import type { Sample } from './bench.ts';
import { Failed } from './failed.ts';
import type { ProofPicture } from './report.ts';

/** What is said of a model that does not come over to a worker as it is. */
export const SENDABLE = {
  expected: 'a model that a worker can be sent',
  remedy:
    'Return plain data from prepare (numbers, text, arrays, typed arrays); functions, classes with methods and what is put on an array besides its numbers cannot be sent to workers.',
};

/** The model as a worker receives it. A model that cannot be sent fails, with a picture where one is drawn. */
export function copyOfModel({ model, trial }: Sample, shown?: () => ProofPicture): unknown {
  try {
    return structuredClone(model);
  } catch (error) {
    throw new Failed(trial, {
      ...SENDABLE,
      received: `one that cannot be copied: ${(error as Error).message.replace(/\.$/, '').slice(0, 200)}`,
      picture: shown?.(),
    });
  }
}
