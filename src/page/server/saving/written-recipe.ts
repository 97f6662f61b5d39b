import { pathFrom } from '../../../host/files/path-from.ts';
import type { Recipe } from '../../../host/plugins/recipe.ts';
import { type Laying, OPENED, RESIST } from '../../words/work.ts';
import { laidSteps } from '../looks/laid-steps.ts';

/** Where the pictures are that a recipe names, once it stands in a file. */
export type PicturePath = (picture: string) => string;

/**
 * A laying as a recipe file has it, its parameters as they are to be written: what is held off is left out, and a
 * seed is written where "tenter lay" by itself would take another.
 */
export function writtenRecipe(laying: Laying, summary: string, folder: string, pathOf: PicturePath): Recipe {
  const steps = laidSteps(laying).map(({ step: { seed, mask, ...step } }, index) => ({
    ...step,
    ...(seed === usualSeed(index) ? {} : { seed }),
    ...(mask === undefined ? {} : { mask: placedMask(mask, folder, pathOf) }),
  }));
  const { follow, light } = laying;
  return { summary, ...(follow ? { follow } : {}), ...(light ? { light } : {}), steps };
}

/** What a step of a recipe has where nobody says its seed. */
function usualSeed(index: number): string {
  return index === 0 ? '1' : `1/${index}`;
}

function placedMask<M extends { readonly picture?: string }>(
  mask: M,
  folder: string,
  pathOf: PicturePath,
): M {
  if (mask.picture === undefined) return mask;
  return { ...mask, picture: pathFrom(folder, pathOf(mask.picture)) };
}

/** The mask pictures that the steps that are laid name: `resist:NAME` and `opened:ID`. */
export function picturesOf(laying: Laying): string[] {
  return [...new Set(laidSteps(laying).flatMap(({ step }) => step.mask?.picture ?? []))];
}

export function resistName(picture: string): string | undefined {
  return picture.startsWith(RESIST) ? picture.slice(RESIST.length) : undefined;
}

export function openedId(picture: string): string {
  return picture.slice(OPENED.length);
}

/** One line on what is laid. */
export function summaryOf(laying: Laying): string {
  const words = laidSteps(laying).map(({ step: { effect, preset } }) =>
    preset ? `${effect} (${preset})` : effect,
  );
  return words.length > 0 ? words.join(', then ') : 'Nothing laid.';
}
