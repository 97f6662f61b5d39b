import { resolve } from 'node:path';
import type { ParameterSet, ParameterValue } from '../../effect/parameter.ts';
import { changePath, isPictureValue, pictureNames } from '../../effect/picture-value.ts';
import type { Shelf } from './shelf.ts';

/** The same values with the paths of pictures made absolute; what is no path is left for whoever checks values. */
export function placedPictures(
  parameters: ParameterSet,
  values: Readonly<Record<string, ParameterValue>>,
  folder: string,
): Record<string, ParameterValue> {
  return mapPictures(parameters, values, (path) => resolve(folder, path));
}

/** The same values with the paths of pictures changed. */
export function mapPictures(
  parameters: ParameterSet,
  values: Readonly<Record<string, ParameterValue>>,
  change: (path: string) => string,
): Record<string, ParameterValue> {
  const changed = pictureNames(parameters).flatMap((name) => {
    const value = Object.hasOwn(values, name) ? values[name] : undefined;
    return isPictureValue(value) ? [[name, changePath(value, change)] as const] : [];
  });
  return { ...values, ...Object.fromEntries(changed) };
}

/** The pictures that an effect brings along, by the parameters that take them where nothing is said. */
export function placedDefaults(parameters: ParameterSet, folder: string): Record<string, ParameterValue> {
  const defaults = pictureNames(parameters).map((name) => [name, String(parameters[name].default)]);
  return placedPictures(parameters, Object.fromEntries(defaults), folder);
}

/** The same step of a recipe, with the paths of its pictures from a folder on; an unknown effect is left for whoever looks it up. */
export function placeStep<Step extends PlaceableStep>({ effects }: Shelf, step: Step, folder: string): Step {
  const declared = effects.get(step.effect)?.effect.parameters;
  if (!declared || !step.parameters) return step;
  return { ...step, parameters: placedPictures(declared, step.parameters, folder) };
}

interface PlaceableStep {
  readonly effect: string;
  readonly parameters?: Readonly<Record<string, ParameterValue>>;
}
