import type { BlendMode } from '../colour/blend.ts';
import { resolveValues } from '../effect/values.ts';
import type { EffectOrder } from './orders.ts';
import { findPreset } from '../host/plugins/preset.ts';
import type { MaskRecipe, RecipeStep } from '../host/plugins/recipe.ts';
import { findEffect, type Shelf } from '../host/plugins/shelf.ts';

/** A step of a recipe with everything looked up and checked. */
export interface RenderStep {
  readonly effect: string;
  readonly version: string;
  readonly preset?: string;
  readonly order: EffectOrder;
  readonly blend: BlendMode;
  readonly opacity: number;
  /** `#rrggbb` */
  readonly paper: string;
  readonly mask?: MaskRecipe;
}

/** What paint is taken to stand on where nobody says otherwise. */
export const WHITE_PAPER = '#ffffff';

/**
 * Looks up the effects and presets of a recipe and checks all values, before any work is done.
 * Values come from the step, else its preset, else the effect.
 *
 * @param seed Of the whole render; the first step uses it as it is, so a recipe of one step and the
 *   effect by itself give the same picture.
 * @throws Fault (usage) for an unknown effect, preset or parameter, or a value out of range.
 */
export function resolveSteps(shelf: Shelf, steps: readonly RecipeStep[], seed: string): RenderStep[] {
  return steps.map((step, index) =>
    resolveStep(shelf, step, step.seed ?? (index === 0 ? seed : `${seed}/${index}`)),
  );
}

function resolveStep(shelf: Shelf, step: RecipeStep, seed: string): RenderStep {
  const { effect, moduleUrl, presets } = findEffect(shelf, step.effect);
  const preset = step.preset === undefined ? undefined : findPreset(effect, presets, step.preset);
  const parameters = resolveValues(effect.name, effect.parameters, {
    ...preset?.parameters,
    ...step.parameters,
  });
  return {
    effect: effect.name,
    version: effect.version,
    preset: preset?.name,
    order: { name: effect.name, version: effect.version, moduleUrl, parameters, seed },
    blend: step.blend ?? preset?.blend ?? effect.blend ?? 'normal',
    opacity: step.opacity ?? preset?.opacity ?? 1,
    paper: step.paper ?? WHITE_PAPER,
    mask: step.mask,
  };
}
