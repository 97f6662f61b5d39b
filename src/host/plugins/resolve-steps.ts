import { dirname } from 'node:path';
import { pictureNames } from '../../effect/picture-value.ts';
import { resolveValues } from '../../effect/values.ts';
import { type RenderStep, WHITE_PAPER } from '../../render/step.ts';
import type { InkNames } from '../ink/inks-in-force.ts';
import { inkedColour, inkedValues } from '../ink/named-colours.ts';
import { placedDefaults, placedPictures } from './picture-paths.ts';
import { findPreset } from './preset.ts';
import type { MaskRecipe, RecipeStep } from './recipe.ts';
import { findEffect, type Shelf } from './shelf.ts';

/**
 * Looks up the effects and presets of a recipe and checks all values, before any work is done.
 * Values come from the step, else its preset, else the effect. The path of a picture starts from the folder of
 * the preset or of the effect's module; one of a step is absolute by now, or starts from the working folder.
 *
 * @param seed Of the whole render; the first step uses it as it is, so a recipe of one step and the
 *   effect by itself give the same picture.
 * @param inks What names of inks in place of colours stand for.
 * @throws Fault (usage) for an unknown effect, preset or parameter, a value out of range, or the name of an ink that
 *   is not on the card in force or where none is.
 */
export function resolveSteps(
  shelf: Shelf,
  steps: readonly RecipeStep[],
  seed: string,
  inks?: InkNames,
): RenderStep[] {
  return steps.map((step, index) =>
    resolveStep(shelf, step, step.seed ?? (index === 0 ? seed : `${seed}/${index}`), inks),
  );
}

function resolveStep(shelf: Shelf, step: RecipeStep, seed: string, inks?: InkNames): RenderStep {
  const { effect, moduleUrl, place, presets } = findEffect(shelf, step.effect);
  const preset = step.preset === undefined ? undefined : findPreset(effect, presets, step.preset);
  const { parameters: declared } = effect;
  const ofPreset = preset && placedPictures(declared, preset.parameters, dirname(preset.file));
  const given = {
    ...placedDefaults(declared, dirname(place)),
    ...ofPreset,
    ...placedPictures(declared, step.parameters ?? {}, '.'),
  };
  const inked = inkedValues(declared, given, inks, effect.name);
  const parameters = resolveValues(effect.name, effect.parameters, inked, effect.retired);
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
    paper:
      step.paper === undefined ? WHITE_PAPER : inkedColour(inks, step.paper, `the paper of ${effect.name}`),
    mask: step.mask && inkedMask(step.mask, inks, effect.name),
  };
}

function inkedMask(mask: MaskRecipe, inks: InkNames | undefined, effect: string): MaskRecipe {
  if (!mask.colours) return mask;
  return { ...mask, colours: mask.colours.map((one) => inkedColour(inks, one, `where ${effect} is laid`)) };
}
