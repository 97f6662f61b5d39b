import type { Bench, Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { describeDifference, differenceOf } from '../compare.ts';
import { copyOfModel, SENDABLE } from '../copy-of-model.ts';
import { Failed } from '../failed.ts';
import { lostInCopy } from '../lost-in-copy.ts';
import { showDifference, showLayer, sideBySide } from '../picture.ts';
import { overTrials, spread } from '../vary.ts';

const VIEW = { x: -20, y: -12, width: 96, height: 72 };

export const clone: Check = {
  name: 'clone',
  promise: 'Its model can be sent to a worker, and paints the same there.',
  needs: ['runs', 'hidden', 'twice', 'state'],
  async run(bench) {
    await overTrials(bench, spread(bench), (sample) => tryClone(bench, sample));
    return { status: 'passed' };
  },
};

function tryClone(bench: Bench, sample: Sample): void {
  const here = bench.paint(sample, VIEW);
  const shown = () => sideBySide([showLayer(here)], 'What the model itself paints.');
  const failed = (received: string, picture = shown()) =>
    new Failed(sample.trial, { ...SENDABLE, received, picture });
  const copy = copyOfModel(sample, shown);
  let there: typeof here;
  try {
    there = bench.paint({ ...sample, model: copy }, VIEW);
  } catch (error) {
    const lost = lostInCopy(sample.model, copy);
    throw failed(
      `one whose copy does not paint${lost ? `, for ${lost} did not come over` : ''}: ${reasonOf(error)}`,
    );
  }
  const difference = differenceOf(here, there);
  if (!difference) return;
  const lost = lostInCopy(sample.model, copy);
  throw failed(
    `one whose copy paints ${describeDifference(difference)}${lost ? `; lost on the way is ${lost}` : ''}`,
    showDifference(here, there),
  );
}

function reasonOf(error: unknown): string {
  return error instanceof Failed ? error.failure.received : String(error);
}
