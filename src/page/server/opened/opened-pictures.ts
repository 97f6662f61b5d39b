import { dirname, resolve } from 'node:path';
import type { ParameterSet, ParameterValue } from '../../../effect/parameter.ts';
import { changePath, pictureName, pictureNames, readPictureValue } from '../../../effect/picture-value.ts';
import { Fault } from '../../../fault.ts';
import { mapPictures, placedPictures } from '../../../host/plugins/picture-paths.ts';
import type { Shelf, ShelvedEffect } from '../../../host/plugins/shelf.ts';
import { type Laying, OPENED, type WorkStep } from '../../words/work.ts';
import type { Artworks } from './artworks.ts';

type Values = Readonly<Record<string, ParameterValue>>;

/** What the page says for a picture: `opened:ID/NAME`, of which the name is to be read alone. */
const OWN = /^opened:([\w-]{1,64})(?:\/[^/\\]*)?$/;

/** As the page names the picture of a parameter that was opened; an @ in its name must not state a size. */
export function openedName(id: string, path: string): string {
  return `${OPENED}${id}/${pictureName(path).replaceAll('@', '-')}`;
}

/**
 * A laying from the page with the real paths of the pictures that its parameters name. Besides those that were
 * opened it may name what its effect or preset brings along; no other file is ever read for the page.
 *
 * @param change What to make of each path, which is absolute.
 * @throws Fault (usage) for any other.
 */
export function withOpenedPaths(
  { shelf, artworks }: { readonly shelf: Shelf; readonly artworks: Pick<Artworks, 'pathOf'> },
  laying: Laying,
  change: (path: string) => string = (path) => path,
): Laying {
  return { ...laying, steps: laying.steps.map((step) => withPaths(step)) };

  function withPaths(step: WorkStep): WorkStep {
    const shelved = shelf.effects.get(step.effect);
    if (!shelved || !step.parameters) return step;
    const own = broughtAlong(shelved, step.preset);
    const { parameters } = shelved.effect;
    const real = Object.entries(step.parameters).map(([name, value]) => {
      if (parameters[name]?.kind !== 'picture' || typeof value !== 'string') return [name, value];
      return [name, own.get(value) ?? changePath(value, (path) => openedPath(name, path))];
    });
    return { ...step, parameters: mapPictures(parameters, Object.fromEntries(real), change) };
  }

  function openedPath(name: string, path: string): string {
    const id = OWN.exec(path)?.[1];
    if (id !== undefined) return artworks.pathOf(id);
    throw new Fault({
      kind: 'usage',
      expected: 'a picture that was opened on the page',
      subject: name,
      received: `"${path}"`,
      remedy: 'Choose it there.',
    });
  }
}

/** The values of an effect's own pictures and of its preset's, as they are written, with their real ones. */
function broughtAlong(
  { effect, place, presets }: ShelvedEffect,
  preset?: string,
): ReadonlyMap<string, string> {
  const { parameters } = effect;
  const names = pictureNames(parameters);
  const usual = Object.fromEntries(names.map((name) => [name, parameters[name].default]));
  const chosen = presets.find(({ name }) => name === preset);
  const pairs = (values: Values, folder: string) => {
    const placed = placedPictures(parameters, values, folder);
    return names.flatMap((name) =>
      Object.hasOwn(values, name) ? [[String(values[name]), String(placed[name])] as const] : [],
    );
  };
  return new Map([
    ...pairs(usual, dirname(place)),
    ...(chosen ? pairs(chosen.parameters, dirname(chosen.file)) : []),
  ]);
}

/** The step of a recipe that is opened, whose pictures are opened too, so that the page can name them. */
export async function withOpenedNames<Step extends Pick<WorkStep, 'effect' | 'parameters'>>(
  step: Step,
  { effects }: Shelf,
  admit: (path: string) => Promise<string>,
): Promise<Step> {
  const declared: ParameterSet = effects.get(step.effect)?.effect.parameters ?? {};
  const values = step.parameters ?? {};
  const named = new Map<string, string>();
  for (const name of pictureNames(declared)) {
    if (typeof values[name] !== 'string') continue;
    const { path } = readPictureValue(values[name]);
    named.set(path, openedName(await admit(resolve(path)), path));
  }
  if (named.size === 0) return step;
  return { ...step, parameters: mapPictures(declared, values, (path) => named.get(path) ?? path) };
}
