import { Failed } from './failed.ts';
import type { Trial } from './trial.ts';

/** What is said of an effect that writes into a picture, which every thread and every step has the same of. */
export function writtenInto(place: string, trial: Trial): Failed {
  return new Failed(trial, {
    expected: 'the pictures to be left as they were given',
    received: `a write to ${place}`,
    remedy:
      'Copy what you want to change: samples.slice() is a copy. Other steps and threads read the same samples.',
  });
}
