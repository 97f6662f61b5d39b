import type { ParameterValue } from '../../../effect/parameter.ts';
import type { OfferedEffect } from '../../words/begin.ts';
import type { Laying, Work, WorkStep } from '../../words/work.ts';

/** The same work with another laying. */
export function laid(work: Work, laying: Partial<Laying>): Work {
  return { ...work, laying: { ...work.laying, ...laying } };
}

/** The same work with one step changed. */
export function stepChanged(work: Work, id: string, change: Partial<WorkStep>): Work {
  const steps = work.laying.steps.map((step) => (step.id === id ? { ...step, ...change } : step));
  return laid(work, { steps });
}

/** A value of a step set, or (undefined) given back to its preset. */
export function valueSet(work: Work, id: string, parameter: string, value: ParameterValue | undefined): Work {
  const step = work.laying.steps.find((one) => one.id === id);
  if (!step) return work;
  const { [parameter]: _, ...others } = step.parameters ?? {};
  const parameters = value === undefined ? others : { ...others, [parameter]: value };
  return stepChanged(work, id, { parameters });
}

/** What a parameter of a step comes to: its own, else its preset's, else the effect's. */
export function currentValue(step: WorkStep, offered: OfferedEffect, parameter: string): ParameterValue {
  const preset = offered.presets.find(({ name }) => name === step.preset);
  return (
    step.parameters?.[parameter] ??
    preset?.parameters[parameter] ??
    offered.effect.parameters[parameter].default
  );
}

type Effects = ReadonlyMap<string, Pick<OfferedEffect, 'effect'>>;

/**
 * One more step after those that are there. One that moves paint goes in before the grounds, such as a cloth, that
 * lie over everything: paint runs on the paper, and would else take the threads along.
 */
export function stepAdded(work: Work, effect: string, effects: Effects = new Map()): Work {
  const steps = [...work.laying.steps];
  const planesOf = (name: string): readonly string[] => effects.get(name)?.effect.planes ?? [];
  const moves = (name: string) => planesOf(name).some((plane) => plane === 'shift' || plane === 'bleed');
  const isGround = (name: string) => effects.has(name) && !moves(name) && !planesOf(name).includes('load');
  const ground = moves(effect) ? steps.findIndex((step) => isGround(step.effect)) : -1;
  steps.splice(ground < 0 ? steps.length : ground, 0, { id: freshId(work), effect });
  return laid(work, { steps });
}

/** The steps of a recipe laid after those that are there. */
export function recipeAdded(work: Work, recipe: Laying): Work {
  const steps = [...work.laying.steps];
  for (const step of recipe.steps) steps.push({ ...step, id: freshId(laid(work, { steps })) });
  const { light = recipe.light, follow = recipe.follow } = work.laying;
  return laid(work, { steps, light, follow });
}

export function stepTaken(work: Work, id: string): Work {
  return laid(work, { steps: work.laying.steps.filter((step) => step.id !== id) });
}

/** A step moved by so many places, no further than the ends. */
export function stepMoved(work: Work, id: string, by: number): Work {
  const steps = [...work.laying.steps];
  const from = steps.findIndex((step) => step.id === id);
  if (from < 0) return work;
  const [step] = steps.splice(from, 1);
  steps.splice(Math.min(steps.length, Math.max(0, from + by)), 0, step);
  return laid(work, { steps });
}

/** A name that no step, resist or trial of the work has had, deleted ones of its past apart. */
export function freshId(work: Work): string {
  const taken = new Set([
    ...work.laying.steps.map(({ id }) => id),
    ...work.trials.flatMap(({ id, laying }) => [id, ...laying.steps.map((step) => step.id)]),
    ...Object.keys(work.resists),
  ]);
  for (let number = 1; ; number++) if (!taken.has(`s${number}`)) return `s${number}`;
}

/** Another throw of the same settings: the seed counted on, or another where it is no number. */
export function anotherThrow(seed: string): string {
  return /^\d{1,9}$/.test(seed) ? String(Number(seed) + 1) : `${seed}'`;
}

/** Another throw of every step: one that none of them shows now. */
export function allThrownAgain(work: Work): Work {
  const { steps, seed } = work.laying;
  const shown = [seed, ...steps.flatMap((step) => step.seed ?? [])];
  let next = anotherThrow(seed);
  while (shown.includes(next)) next = anotherThrow(next);
  return laid(work, { seed: next, steps: steps.map(({ seed: _, ...step }) => step) });
}
