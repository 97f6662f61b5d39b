import { dirname } from 'node:path';
import { pictureNames } from '../../effect/picture-value.ts';
import { resolveValues } from '../../effect/values.ts';
import { type RenderStep, WHITE_PAPER } from '../../render/step.ts';
import { placedDefaults, placedPictures } from './picture-paths.ts';
import { findPreset } from './preset.ts';
import type { RecipeStep } from './recipe.ts';
import { findEffect, type Shelf } from './shelf.ts';

/**
 * Looks up the effects and presets of a recipe and checks all values, before any work is done.
 * Values come from the step, else its preset, else the effect. The path of a picture starts from the folder of
 * the preset or of the effect's module; one of a step is absolute by now, or starts from the working folder.
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
  const { effect, moduleUrl, place, presets } = findEffect(shelf, step.effect);
  const preset = step.preset === undefined ? undefined : findPreset(effect, presets, step.preset);
  const { parameters: declared } = effect;
  const ofPreset = preset && placedPictures(declared, preset.parameters, dirname(preset.file));
  const given = {
    ...placedDefaults(declared, dirname(place)),
    ...ofPreset,
    ...placedPictures(declared, step.parameters ?? {}, '.'),
  };
  const parameters = resolveValues(effect.name, effect.parameters, given, effect.retired);
  return {
    effect: effect.name,
    version: effect.version,
    preset: preset?.name,
    declares: {
      planes: effect.planes,
      reads: effect.reads,
      lightFrom: effect.lightFrom,
      pictures: pictureNames(declared),
    },
    order: { name: effect.name, version: effect.version, moduleUrl, parameters, seed },
    blend: step.blend ?? preset?.blend ?? effect.blend ?? 'normal',
    opacity: step.opacity ?? preset?.opacity ?? 1,
    paper: step.paper ?? WHITE_PAPER,
    mask: step.mask,
  };
}
