import type { Findings } from '../../host/files/findings.ts';
import type { InkNames } from '../../host/ink/inks-in-force.ts';
import type { RecipeStep } from '../../host/plugins/recipe.ts';
import { resolveSteps } from '../../host/plugins/resolve-steps.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import { suggestName } from '../../nearest.ts';
import type { RenderStep } from '../../render/step.ts';
import { type Axis, type AxisValue, COMMON_AXES } from '../file/axes.ts';
import type { NamedRecipe } from '../file/recipes.ts';
import type { ExceptRule } from '../file/schema.ts';

/** One value of every axis. */
export type Choice = Readonly<Record<string, AxisValue>>;

/** How many combinations there are, before any is left out and without making one. */
export function countCombinations(tiles: number, recipes: readonly NamedRecipe[]): number {
  const perTile = recipes.map(({ axes }) => axes.reduce((product, { values }) => product * values.length, 1));
  return tiles * perTile.reduce((sum, count) => sum + count, 0);
}

/** Every combination of the axes, the last axis running fastest. */
export function* choicesOf(axes: readonly Axis[]): Generator<Choice> {
  const [axis, ...rest] = axes;
  if (!axis) {
    yield {};
    return;
  }
  for (const value of axis.values) for (const more of choicesOf(rest)) yield { [axis.name]: value, ...more };
}

/** The steps of a recipe with a choice laid into them, looked up and checked. */
export function stepsOf(shelf: Shelf, recipe: NamedRecipe, choice: Choice, inks?: InkNames): RenderStep[] {
  const steps = recipe.steps.map((step) => ({ ...step, ...chosenParts(step, choice) }));
  const opacity = (choice.opacity?.value as number | undefined) ?? 1;
  const seed = String(choice.seed?.value ?? '1');
  return resolveSteps(shelf, steps, seed, inks).map((step) => ({ ...step, opacity: step.opacity * opacity }));
}

function chosenParts(step: RecipeStep, choice: Choice): Partial<RecipeStep> {
  const own = Object.entries(choice)
    .filter(([axis]) => isParameter(axis) && axis.startsWith(`${step.effect}.`))
    .map(([axis, { value }]) => [axis.slice(step.effect.length + 1), value]);
  return {
    parameters: { ...step.parameters, ...Object.fromEntries(own) },
    blend: (choice.blend?.value as RecipeStep['blend']) ?? step.blend,
  };
}

function isParameter(axis: string): boolean {
  return !COMMON_AXES.some((name) => name === axis);
}

/** What a combination is called: its tile, its recipe and the label of each axis. */
export type Labels = Readonly<Record<string, string>>;

/** True where some rule fits: every word of it names a label that fits its pattern, or one of them. */
export function isLeftOut(labels: Labels, rules: readonly ExceptRule[]): boolean {
  return rules.some((rule) =>
    Object.entries(rule).every(([axis, wanted]) => {
      const label = labels[axis];
      return label !== undefined && [wanted].flat().some((one) => fitsPattern(String(one), label));
    }),
  );
}

/** A rule about an axis or value that is not there would leave out nothing, and nobody would notice. */
export function checkRules(
  rules: readonly ExceptRule[],
  known: ReadonlyMap<string, ReadonlySet<string>>,
  findings: Findings,
): void {
  for (const [index, rule] of rules.entries()) {
    if (Object.keys(rule).length === 0)
      findings.add(['except', index], 'an empty rule would leave out everything');
    for (const [axis, wanted] of Object.entries(rule)) {
      const labels = known.get(axis);
      if (!labels) {
        findings.add(
          ['except', index],
          `"${axis}" is not varied here. ${suggestName(axis, [...known.keys()])}`,
          axis,
        );
        continue;
      }
      for (const one of [wanted].flat()) {
        if ([...labels].some((label) => fitsPattern(String(one), label))) continue;
        findings.add(
          ['except', index, axis],
          `nothing is called "${one}". ${suggestName(String(one), [...labels].slice(0, 20))}`,
        );
      }
    }
  }
}

/** True where `text` fits a pattern in which * stands for any letters. Case counts. */
function fitsPattern(pattern: string, text: string): boolean {
  const parts = pattern.split('*').map((part) => part.replaceAll(/[.+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^${parts.join('.*')}$`, 's').test(text);
}
