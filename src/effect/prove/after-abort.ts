import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import { Failed } from './failed.ts';
import { showDifference, showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';

/** Across the corner, so that what is at the end of either loop is looked at too. */
const VIEW = { x: -20, y: -12, width: 80, height: 60 };
const REMEDY =
  'What prepare had begun was left lying in the module when progress threw. Keep it in variables of prepare, put it right in finally, or keep it only once it is done.';

/**
 * Prepares once more what was given up: what prepare had begun by then may lie about in the module.
 *
 * @param trial Has been given up, and never been prepared to its end.
 * @throws Failed where it is another texture than that of a copy in which nothing was given up, or none.
 */
export async function tryAfterAbort(bench: Bench, trial: Trial): Promise<void> {
  const fresh = await bench.runCopy?.({ trials: [trial], view: VIEW }, []);
  if (bench.runCopy && !fresh?.layer) return;
  const again = await paintAgain(bench, trial, fresh?.layer);
  if (!fresh?.layer) return;
  const difference = differenceOf(fresh.layer, again);
  if (!difference) return;
  throw new Failed(trial, {
    expected: 'the same texture after a render that was given up',
    received: describeDifference(difference),
    remedy: REMEDY,
    picture: showDifference(fresh.layer, again),
  });
}

async function paintAgain(bench: Bench, trial: Trial, fresh: AnyLayer | undefined): Promise<AnyLayer> {
  try {
    return bench.paint(await bench.prepare(trial), VIEW);
  } catch (error) {
    throw new Failed(trial, {
      expected: 'the same texture after a render that was given up',
      received: error instanceof Failed ? error.failure.received : `${error}`,
      remedy: REMEDY,
      picture: fresh && sideBySide([showLayer(fresh)], 'What a copy paints in which nothing was given up.'),
    });
  }
}
