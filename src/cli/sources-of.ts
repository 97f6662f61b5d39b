import type { Shelf } from '../host/plugins/shelf.ts';
import type { RenderStep } from '../render/step.ts';

/** The files that the steps are made from: the modules of their effects, and the presets beside them. */
export function sourcesOf({ effects }: Shelf, steps: readonly RenderStep[]): string[] {
  return steps.flatMap(({ effect }) => {
    const { files = [], presets = [] } = effects.get(effect) ?? {};
    return [...files, ...presets.map(({ file }) => file)];
  });
}
