import type { Bench } from '../bench.ts';
import type { Check } from '../check.ts';
import { tryElsewhere } from '../elsewhere.ts';
import { BREAKS, Failed } from '../failed.ts';
import { showDifference } from '../picture.ts';
import { type Trapped, watchSources } from '../traps.ts';
import { HOME, type Trial } from '../trial.ts';
import { overTrials, SKETCHED, spread, variants } from '../vary.ts';

const VIEW = { x: -20, y: -12, width: 80, height: 60 };
/** Others may read the clock while an asynchronous `prepare` waits: what counts is drawn every time. */
const ROUNDS = 3;

const REMEDIES: Readonly<Record<Trapped['sort'], string>> = {
  chance: 'Draw from random("a name") of the setting: the same seed then gives the same texture.',
  clock: 'Leave the clock out: the same setting must give the same texture at any time.',
  outside:
    'Bring what it needs along in its module: it must be the same on every machine, without a network.',
};

export const hidden: Check = {
  name: 'hidden',
  promise: BREAKS.dice,
  needs: ['runs'],
  async run(bench) {
    const sketches = bench.quick ? [] : variants(bench.effect, SKETCHED);
    const quality: Trial = { ...HOME, quality: 'sketch' };
    await overTrials(bench, [...spread(bench), quality, ...sketches], ({ trial }) => tryHidden(bench, trial));
    await tryElsewhere(bench);
    return { status: 'passed' };
  },
};

/** @throws Failed that names what the effect draws from in this setting, where it does so every time. */
export async function tryHidden(bench: Bench, trial: Trial): Promise<void> {
  const drawn = await drawnAlways(bench, trial);
  if (!drawn) return;
  const [first, second] = [await bench.prepare(trial), await bench.prepare(trial)];
  throw new Failed(trial, {
    expected: 'every number to come from the setting',
    received: `a call of ${drawn.name}`,
    remedy: REMEDIES[drawn.sort],
    breaks: BREAKS.dice,
    picture: showDifference(bench.paint(first, VIEW), bench.paint(second, VIEW)),
  });
}

async function drawnAlways(bench: Bench, trial: Trial): Promise<Trapped | undefined> {
  let found: Trapped | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const drawn = await watchSources(async () => {
      bench.paint(await bench.prepare(trial), VIEW);
    });
    found = found ? drawn.find(({ name }) => name === found?.name) : drawn[0];
    if (!found) return undefined;
  }
  return found;
}
