import { readValue } from '../../../effect/read-value.ts';
import { isSameValue, writtenValue } from '../../../effect/value.ts';
import { findEffect, type Shelf } from '../../../host/plugins/shelf.ts';
import type { Laying } from '../../words/work.ts';
import { type LaidStep, laidSteps } from '../looks/laid-steps.ts';
import type { Words } from './command-words.ts';

/**
 * The options of "tenter lay EFFECT" that say the same as a laying of one step.
 *
 * @returns Nothing where a recipe has to say it: several steps, a picture, a value that words would round.
 */
export function effectWords(shelf: Shelf, laying: Laying): Words | undefined {
  const [only, ...others] = laidSteps(laying);
  if (others.length > 0 || only.step.mask?.picture !== undefined) return undefined;
  const set = setWords(shelf, only);
  if (!set) return undefined;
  const { preset, seed, blend, opacity, paper, mask } = only.step;
  return [
    ...(preset === undefined ? [] : ['--preset', preset]),
    ...set,
    ...(seed === '1' ? [] : [`--seed=${seed}`]),
    ...(blend === undefined ? [] : ['--blend', blend]),
    ...(opacity === undefined ? [] : ['--opacity', String(opacity)]),
    ...(paper === undefined ? [] : ['--paper', paper]),
    ...(mask?.colours ?? []).flatMap((colour) => ['--on', colour]),
    ...(mask?.tolerance === undefined ? [] : ['--tolerance', String(mask.tolerance)]),
    ...(mask?.softness === undefined ? [] : ['--softness', String(mask.softness)]),
    ...(mask?.spare ? ['--spare'] : []),
    ...layingWords(laying),
  ];
}

/** What is said of all steps together. */
export function layingWords({ follow, light = {} }: Laying): Words {
  const lit = Object.entries(light).filter(([, value]) => value !== undefined);
  return [
    ...(follow === undefined ? [] : ['--follow', follow]),
    ...lit.flatMap(([name, value]) => ['--light', `${name}=${value}`]),
  ];
}

/** The values of a step, or nothing where one would be rounded on the way. */
export function setWords(shelf: Shelf, { step }: LaidStep): Words | undefined {
  const { parameters } = findEffect(shelf, step.effect).effect;
  const values = Object.entries(step.parameters ?? {});
  const isExact = values.every(
    ([name, value]) =>
      Object.hasOwn(parameters, name) && isSameValue(readValue(parameters[name], writtenValue(value)), value),
  );
  return isExact ? values.flatMap(([name, value]) => ['--set', `${name}=${writtenValue(value)}`]) : undefined;
}
