import { channelsOf, deviationOf } from '../channels.ts';
import type { Check } from '../check.ts';
import { Failed, Refused } from '../failed.ts';
import { HOME } from '../trial.ts';

/** Wide enough to show something of most textures. */
const VIEW = { x: -20, y: -20, width: 160, height: 120 };

export const runs: Check = {
  name: 'runs',
  promise: 'It makes a texture from its default parameters.',
  needs: [],
  async run(bench) {
    const sample = await bench.shared(HOME).catch((error) => {
      if (error instanceof Refused) throw refusedDefaults(error);
      throw error;
    });
    const layer = bench.paint(sample, VIEW);
    const isFlat = channelsOf(layer).every(({ values }) => !(deviationOf(values) > 0));
    if (!isFlat) return { status: 'passed' };
    return {
      status: 'passed',
      note: `at its defaults it is one flat tone over ${HOME.width} x ${HOME.height} mm, so that the other checks see little`,
    };
  },
};

function refusedDefaults(refusal: Refused): Failed {
  return new Failed(refusal.trial, {
    expected: 'a texture from the default parameters',
    received: `a refusal: ${refusal.message.replace(/\.$/, '')}`,
    remedy: 'Choose defaults that work at any size of repeat.',
  });
}
