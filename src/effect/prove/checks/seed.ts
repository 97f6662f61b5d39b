import { type Check, GROUND } from '../check.ts';
import { differenceOf } from '../compare.ts';
import { Failed } from '../failed.ts';
import { tryManySeeds } from '../many-seeds.ts';
import { showLayer, sideBySide } from '../picture.ts';
import { trySameKind } from '../same-kind.ts';
import { HOME } from '../trial.ts';

const VIEW = { x: -20, y: -12, width: 160, height: 120 };

export const seed: Check = {
  name: 'seed',
  promise: 'Another seed gives another texture of the same kind.',
  needs: GROUND,
  async run(bench) {
    const sample = await bench.shared(HOME);
    if (!sample.used.has('random') && !sample.used.has('seed')) {
      return { status: 'not applicable', note: 'it draws no random numbers' };
    }
    const first = bench.paint(sample, VIEW);
    for (const other of ['another', 'a third']) {
      const second = bench.paint(await bench.shared({ ...HOME, seed: other }), VIEW);
      if (!differenceOf(first, second)) continue;
      const { tried, left } = await tryManySeeds(bench, sample.used.has('seed'));
      await trySameKind(bench);
      const note = left > 0 ? `there was no time for ${left} more seeds` : undefined;
      return { status: 'passed', note, figures: { seeds: tried } };
    }
    throw new Failed(HOME, {
      expected: 'another texture from another seed',
      received: 'the same floats from three seeds, though it asks for random numbers',
      remedy:
        'Let what is random come from random("a name") of the setting, and keep nothing from another render.',
      picture: sideBySide([showLayer(first)], 'What all three seeds paint.'),
    });
  },
};
