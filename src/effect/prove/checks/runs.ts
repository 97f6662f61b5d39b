import type { Bench } from '../bench.ts';
import { channelsOf, deviationOf } from '../channels.ts';
import type { Check } from '../check.ts';
import { Failed, Refused } from '../failed.ts';
import { LAYOUTS } from '../random.ts';
import { HOME, type Trial } from '../trial.ts';
import { SKETCHED } from '../vary.ts';

/** Wide enough to show something of most textures. */
const VIEW = { x: -20, y: -20, width: 160, height: 120 };

export const runs: Check = {
  name: 'runs',
  promise: 'It makes a texture from its default parameters, over every layout.',
  needs: [],
  async run(bench) {
    const sample = await bench.shared(HOME).catch(async (error) => {
      throw error instanceof Refused ? await refusedDefaults(bench, error) : error;
    });
    await trySketch(bench);
    await tryLayouts(bench);
    const layer = bench.paint(sample, VIEW);
    const isFlat = channelsOf(layer).every(({ values }) => !(deviationOf(values) > 0));
    if (!isFlat) return { status: 'passed' };
    return {
      status: 'passed',
      note: `at its defaults it is one flat tone over ${HOME.width} x ${HOME.height} mm, so that the other checks see little`,
    };
  },
};

/** @throws Failed where the defaults are refused as a sketch. */
async function trySketch(bench: Bench): Promise<void> {
  const trial: Trial = { ...HOME, quality: 'sketch' };
  await bench.shared(trial).catch((error) => {
    if (!(error instanceof Refused)) throw error;
    throw new Failed(trial, {
      expected: 'a sketch of what is taken as a finished texture',
      received: `a refusal: ${error.message.replace(/\.$/, '')}`,
      remedy: 'A sketch may be coarser, or be the finished texture itself; let prepare refuse no quality.',
    });
  });
}

/** @throws Failed where a layout is refused that is no other than the one that was taken. */
async function tryLayouts(bench: Bench): Promise<void> {
  for (const layout of LAYOUTS) {
    const trial = { ...SKETCHED, layout };
    const refusal = await bench.shared(trial).then(
      () => undefined,
      (error) => (error instanceof Refused ? error : undefined),
    );
    if (!refusal || !(await isTaken(bench, { ...trial, layout: HOME.layout }))) continue;
    throw new Failed(trial, {
      expected: `a texture over layout ${layout}, as over ${HOME.layout}`,
      received: `a refusal: ${refusal.message.replace(/\.$/, '')}`,
      remedy:
        'An effect closes over every drop and brick: take points, noise and cells of the box as it is, or bring places home with homeParts.',
    });
  }
}

async function refusedDefaults(bench: Bench, refusal: Refused): Promise<Failed> {
  const isOfLayout = await isTaken(bench, { ...HOME, layout: 'straight' });
  return new Failed(refusal.trial, {
    expected: 'a texture from the default parameters',
    received: `a refusal: ${refusal.message.replace(/\.$/, '')}`,
    remedy: isOfLayout
      ? `In a straight layout it is taken: an effect closes over every drop and brick. Take points, noise and cells of the box as it is, or bring places home with homeParts.`
      : 'Choose defaults that work at any size of repeat.',
  });
}

async function isTaken(bench: Bench, trial: Trial): Promise<boolean> {
  return bench.prepare(trial).then(
    () => true,
    () => false,
  );
}
