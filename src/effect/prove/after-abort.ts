import type { Bench, Sample } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import { Failed } from './failed.ts';
import { showDifference } from './picture.ts';

const VIEW = { x: -20, y: -12, width: 80, height: 60 };

/**
 * Prepares once more what was given up: what prepare had begun by then may lie about in the module.
 *
 * @param before The same setting, prepared before any render was given up.
 * @throws Failed where it is another texture.
 */
export async function tryAfterAbort(bench: Bench, before: Sample): Promise<void> {
  const sound = bench.paint(before, VIEW);
  const again = bench.paint(await bench.prepare(before.trial), VIEW);
  const difference = differenceOf(sound, again);
  if (!difference) return;
  throw new Failed(before.trial, {
    expected: 'the same texture after a render that was given up',
    received: describeDifference(difference),
    remedy:
      'What prepare had begun was left lying in the module when progress threw. Keep it in variables of prepare, or put it right in finally.',
    picture: showDifference(sound, again),
  });
}
