import type { Bench } from '../bench.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { showDifference } from '../picture.ts';
import { type Drawn, watchSources } from '../traps.ts';
import { HOME } from '../trial.ts';

const VIEW = { x: -20, y: -12, width: 80, height: 60 };
/** Others may read the clock while an asynchronous `prepare` waits: what counts is drawn every time. */
const ROUNDS = 3;

export const hidden: Check = {
  name: 'hidden',
  promise: 'It draws its numbers from the seed alone, never from chance or the clock.',
  needs: ['runs'],
  async run(bench) {
    const drawn = await drawnAlways(bench);
    if (!drawn) return { status: 'passed' };
    throw new Failed(HOME, {
      expected: 'every number to come from the setting',
      received: `a call of ${drawn.name}`,
      remedy:
        drawn.sort === 'chance'
          ? 'Draw from random("a name") of the setting: the same seed then gives the same texture.'
          : 'Leave the clock out: the same setting must give the same texture at any time.',
      picture: await showTwoRuns(bench),
    });
  },
};

async function drawnAlways(bench: Bench): Promise<Drawn | undefined> {
  let found: Drawn | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const drawn = await watchSources(async () => {
      const sample = await bench.prepare(HOME);
      bench.paint(sample, VIEW);
    });
    found = found ? drawn.find(({ name }) => name === found?.name) : drawn[0];
    if (!found) return undefined;
  }
  return found;
}

async function showTwoRuns(bench: Bench) {
  const [first, second] = [await bench.prepare(HOME), await bench.prepare(HOME)];
  return showDifference(bench.paint(first, VIEW), bench.paint(second, VIEW));
}
