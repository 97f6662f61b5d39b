import type { Bench, Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { dataDifference, describeDifference, differenceOf } from '../compare.ts';
import { Failed } from '../failed.ts';
import { showDifference } from '../picture.ts';
import { overTrials, spread } from '../vary.ts';

const VIEW = { x: -20, y: -12, width: 96, height: 72 };

export const twice: Check = {
  name: 'twice',
  promise: 'The same setting gives the same model, and the same model the same band, every time.',
  needs: ['runs', 'hidden'],
  async run(bench) {
    await overTrials(bench, spread(bench), (sample) => tryTwice(bench, sample));
    return { status: 'passed' };
  },
};

async function tryTwice(bench: Bench, shared: Sample): Promise<void> {
  const second = await bench.prepare(shared.trial);
  // One that has been painted from may have been written into: that is for another check to say.
  const differs = dataDifference(shared.model, second.model) !== undefined;
  const sample = differs ? await bench.prepare(shared.trial) : shared;
  const path = dataDifference(sample.model, second.model);
  if (path) {
    throw new Failed(sample.trial, {
      expected: 'the same model when prepare runs a second time',
      received: `a model that differs at ${path}`,
      remedy: 'Let prepare depend on nothing but its setting: no counter, no variable of the module.',
      picture: showDifference(bench.paint(sample, VIEW), bench.paint(second, VIEW)),
    });
  }
  const [first, again] = [bench.paint(sample, VIEW), bench.paint(sample, VIEW)];
  const repainted = differenceOf(first, again);
  if (!repainted) return;
  throw new Failed(sample.trial, {
    expected: 'the same floats when a band is painted a second time',
    received: describeDifference(repainted),
    remedy: 'Let paint depend on nothing but its arguments: no counter, no variable of the module.',
    picture: showDifference(first, again),
  });
}
