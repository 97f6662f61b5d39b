import { Fault } from '../../../fault.ts';
import type { RecipeStep } from '../../../host/plugins/recipe.ts';
import { resolveSteps } from '../../../host/plugins/resolve-steps.ts';
import type { Shelf } from '../../../host/plugins/shelf.ts';
import type { RenderStep } from '../../../render/step.ts';
import type { Laying } from '../../words/work.ts';

/** A step that is laid, as a recipe has it, its seed said. */
export interface LaidStep {
  readonly id: string;
  readonly step: RecipeStep & { readonly seed: string };
}

/**
 * The steps that are not held off. What is held keeps its place: a step after it draws the same cloth
 * whether it is laid or not, so each says its own seed, as `resolveSteps` would have found it.
 */
export function laidSteps({ steps, seed }: Laying): LaidStep[] {
  return steps.flatMap(({ id, held, ...step }, index) =>
    held ? [] : [{ id, step: { ...step, seed: step.seed ?? (index === 0 ? seed : `${seed}/${index}`) } }],
  );
}

/** A step with everything looked up. */
export interface RenderedStep {
  readonly id: string;
  readonly step: RenderStep;
}

/** Looks up the steps of a laying. @throws Fault (usage) that names the step at fault in its details. */
export function renderedSteps(shelf: Shelf, laying: Laying): RenderedStep[] {
  return laidSteps(laying).map(({ id, step }) => {
    try {
      return { id, step: resolveSteps(shelf, [step], step.seed)[0] };
    } catch (error) {
      throw Fault.is(error) ? atStep(error, id) : error;
    }
  });
}

/** The same fault, which says by its id which step it is of. */
export function atStep(fault: Fault, step: string): Fault {
  const { details, ...rest } = fault.toJSON();
  return new Fault({ ...rest, details: { ...details, step }, cause: fault });
}

/** A fault of an effect that failed as it was rendered, laid to the step it is of. */
export function blameStep(error: unknown, steps: readonly RenderedStep[]): unknown {
  if (!Fault.is(error) || error.details?.step !== undefined) return error;
  const { effect, seed } = error.details ?? {};
  const mine = steps.filter(({ step }) => step.effect === effect || error.subject.includes(step.effect));
  const found = mine.find(({ step }) => step.order.seed === seed) ?? mine[0];
  return found ? atStep(error, found.id) : error;
}
