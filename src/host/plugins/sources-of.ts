import type { RenderStep } from '../../render/step.ts';
import type { Shelf } from './shelf.ts';

/** The files that the steps are made from: the modules of their effects, and the presets beside them. */
export function sourcesOf({ effects }: Shelf, steps: readonly Pick<RenderStep, 'effect'>[]): string[] {
  return steps.flatMap(({ effect }) => {
    const { files = [], presets = [] } = effects.get(effect) ?? {};
    return [...files, ...presets.map(({ file }) => file)];
  });
}
