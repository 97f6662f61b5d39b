import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import type { CopyAnswer, RunCopy } from './copy.ts';
import { Failed } from './failed.ts';
import { showDifference, showLayer, sideBySide } from './picture.ts';
import { type Drawn, SURROUNDINGS, type Surrounding } from './surrounding.ts';
import { HOME, type Trial } from './trial.ts';

const VIEW = { x: -20, y: -12, width: 80, height: 60 };
/** So much work that a timer may run out meanwhile. */
const LONG: Trial = { ...HOME, width: 120, height: 96 };

const WORDS: Readonly<Record<Surrounding, string>> = {
  chance: 'where chance falls otherwise',
  clock: 'where the clock is another',
  timers: 'where timers run late',
  'early timers': 'where timers run out at once',
  'time zone': 'where the time zone is another',
  locale: 'where the locale is another',
  environment: 'where the environment is another',
  machine: 'on another machine',
};

const OF_TIMERS =
  'How far work comes by the time a timer runs out is another on every machine: end it by a count of steps, or where it has come near enough to its end.';

const REMEDIES: Readonly<Record<Surrounding, string>> = {
  chance: 'Draw from random("a name") of the setting: every worker loads the module for itself.',
  clock: 'Leave the clock out, at load too: every worker loads the module at another moment.',
  timers: OF_TIMERS,
  'early timers': OF_TIMERS,
  'time zone': 'Leave the time zone out: the same setting must give the same texture anywhere.',
  locale: 'Name the locale, such as "en": the same setting must give the same texture anywhere.',
  environment: 'Make a parameter of what the environment says: the setting alone decides.',
  machine: 'Leave the machine out: the same setting must give the same texture on every one.',
};

/**
 * Loads the effect twice, with everything around it moved, and compares what the two paint: each worker
 * loads the effect for itself, so that what is drawn once, at load, differs from band to band.
 *
 * @throws Failed that names what the texture depends on.
 */
export async function tryElsewhere({ runCopy }: Bench): Promise<void> {
  if (!runCopy) return;
  const here = await paintCopy(runCopy, [], false);
  const outside = here.drawn.find(({ sort }) => sort === 'outside');
  if (outside) throw fromOutside(here, outside);
  if (!here.layer) return;
  if (!sameLayers(here.layer, (await paintCopy(runCopy, SURROUNDINGS)).layer))
    throw await cause(runCopy, here.layer);
  if (here.drawn.some(({ sort }) => sort === 'timers')) await tryEarly(runCopy);
}

/**
 * Compares a texture with the same one where every timer runs out at once: a deadline that cuts work short makes another
 * one then. A watchdog throws, and whoever waits for others waits less: that is no fault.
 */
async function tryEarly(runCopy: RunCopy): Promise<void> {
  const onTime = await runCopy({ trials: [LONG], view: VIEW, isElsewhere: true }, []);
  const early = await runCopy({ trials: [LONG], view: VIEW, isElsewhere: true }, ['early timers']);
  if (!onTime.layer || early.failure || sameLayers(onTime.layer, early.layer)) return;
  throw depends(onTime.layer, early, { one: 'early timers', trial: LONG });
}

/** Nothing is moved first: what differs then does so from copy to copy, wherever it is. */
async function cause(runCopy: RunCopy, here: AnyLayer): Promise<Failed> {
  const again = await paintCopy(runCopy, []);
  if (!sameLayers(here, again.layer)) return depends(here, again, { one: onlyTimers(again) });
  for (const one of SURROUNDINGS) {
    const moved = await paintCopy(runCopy, [one]);
    if (!sameLayers(here, moved.layer)) return depends(here, moved, { one });
  }
  return depends(here, await paintCopy(runCopy, SURROUNDINGS));
}

/** What differs every time, and draws from timers and neither from chance nor from a clock, does so by them. */
function onlyTimers({ drawn }: CopyAnswer): 'timers' | undefined {
  const has = (...sorts: readonly Drawn['sort'][]) => drawn.some(({ sort }) => sorts.includes(sort));
  return has('timers') && !has('chance', 'clock') ? 'timers' : undefined;
}

/** @throws Failed where the copy could not be loaded, or fails where it stands. */
async function paintCopy(
  runCopy: RunCopy,
  elsewhere: readonly Surrounding[],
  isElsewhere = true,
): Promise<CopyAnswer> {
  const answer = await runCopy({ trials: [HOME], view: VIEW, isElsewhere }, elsewhere);
  if (answer.failure) throw new Failed(answer.failure.setting, answer.failure);
  return answer;
}

function sameLayers(a: AnyLayer, b: AnyLayer | undefined): b is AnyLayer {
  return b !== undefined && !differenceOf(a, b);
}

function depends(
  here: AnyLayer,
  { layer, drawn }: CopyAnswer,
  { one, trial = HOME }: { readonly one?: Surrounding; readonly trial?: Trial } = {},
): Failed {
  const names = drawn.filter(({ sort }) => !one || one.endsWith(sort)).map(({ name }) => name);
  const asked = names.length > 0 ? ` (it asks ${names.slice(0, 3).join(', ')})` : '';
  const difference = layer && differenceOf(here, layer);
  const what = `another ${one ? WORDS[one] : 'in every copy'}${asked}`;
  return new Failed(trial, {
    expected: 'the same texture from every copy of the effect that is loaded',
    received: difference ? `${what}: ${describeDifference(difference)}` : `${what}: none at all`,
    remedy: one
      ? REMEDIES[one]
      : 'Let everything come from the setting, and nothing from the thread, the place or the memory it runs in.',
    picture: layer ? showDifference(here, layer) : sideBySide([showLayer(here)]),
  });
}

function fromOutside({ layer }: CopyAnswer, { name }: Drawn): Failed {
  return new Failed(HOME, {
    expected: 'everything to come from the setting',
    received: `a call of ${name}`,
    remedy:
      'Put what it reads into the module or make a parameter of it: files and networks change, and are not there for everybody.',
    picture: layer && sideBySide([showLayer(layer)]),
  });
}
