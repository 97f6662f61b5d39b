import type { Parameter } from '../parameter.ts';
import { changes, type Pictures } from './alive-pictures.ts';
import { WIDE } from './alive-places.ts';
import type { Bench } from './bench.ts';
import { openBudget } from './budget.ts';
import { Failed } from './failed.ts';
import { HOME, type Trial } from './trial.ts';
import { extremesOf, SMALL } from './vary.ts';

/** What is spent on whether values that a sketch shows are in the finished texture too, s. */
const FINISHED_SECONDS = { quick: 0.4, whole: 6 };

/**
 * What shows in a sketch must be in the finished texture, where prepare looks at the quality: a branch of its own may
 * forget a value. The other way round a sketch may leave out detail.
 *
 * @throws Failed
 */
export async function tryFinished(bench: Bench, pictures: Pictures): Promise<void> {
  const { used } = await bench.shared(HOME);
  if (!used.has('quality')) return;
  const budget = openBudget(bench, FINISHED_SECONDS);
  for (const [name, parameter] of Object.entries<Parameter>(bench.effect.parameters)) {
    const showing = pictures.showing.get(name);
    if (showing?.quality !== 'sketch') continue;
    const places = [showing, WIDE, SMALL].map((place): Trial => ({ ...place, quality: 'finished' }));
    let isAlive = false;
    for (const place of places) {
      if (isAlive || budget.isOver()) break;
      const surrounding = { ...place, parameters: { ...showing.parameters, ...place.parameters } };
      const values = [parameter.default, ...extremesOf(parameter)];
      isAlive = (await changes(pictures, surrounding, name, { values })) !== 'same';
    }
    if (!isAlive && !budget.isOver()) throw deadFinished(name, showing);
  }
}

function deadFinished(name: string, showing: Trial): Failed {
  return new Failed(
    { ...showing, quality: 'finished' },
    {
      expected: `${name} to change the finished texture`,
      received: 'the same picture at all its values, though a sketch changes with them',
      remedy: `Look where prepare goes another way for a sketch: the other way has to look at "${name}" too.`,
    },
  );
}
