import { dirname } from 'node:path';
import { valueFaults } from '../../effect/values.ts';
import type { Findings } from '../files/findings.ts';
import { withoutInkNames } from '../ink/named-colours.ts';
import { placeStep } from './picture-paths.ts';
import { findPreset } from './preset.ts';
import { type Recipe, type RecipeStep, readRecipeFile } from './recipe.ts';
import { findEffect, type Shelf } from './shelf.ts';

/**
 * Reads a recipe and looks up what its steps name; the paths of pictures in it start from its own folder.
 *
 * @param hasCard True where a card is given besides, so that names of inks may stand for colours.
 * @throws Fault (input) that lists all unknown effects, presets and parameters and all values out of
 *   range, each with its line.
 */
export async function openRecipe(path: string, shelf: Shelf, hasCard = false): Promise<Recipe> {
  const { recipe, findings } = await readRecipeFile(path);
  const namesInks = hasCard || recipe.colourway !== undefined;
  for (const [index, step] of recipe.steps.entries()) addStepFaults(findings, shelf, step, index, namesInks);
  findings.throwIfAny();
  return { ...recipe, steps: recipe.steps.map((step) => placeStep(shelf, step, dirname(path))) };
}

function addStepFaults(
  findings: Findings,
  shelf: Shelf,
  step: RecipeStep,
  index: number,
  namesInks: boolean,
): void {
  const place = ['steps', index];
  const found = findings.try([...place, 'effect'], () => findEffect(shelf, step.effect));
  if (!found) return;
  const { effect, presets } = found;
  if (step.preset !== undefined) {
    findings.try([...place, 'preset'], () => findPreset(effect, presets, step.preset!));
  }
  for (const { name, fault } of valueFaults(
    effect.name,
    effect.parameters,
    namesInks ? withoutInkNames(effect.parameters, step.parameters ?? {}) : (step.parameters ?? {}),
    effect.retired,
  )) {
    findings.addFault([...place, 'parameters', name], fault);
  }
}
