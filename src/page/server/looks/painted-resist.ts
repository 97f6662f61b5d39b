import { Fault } from '../../../fault.ts';
import type { Grid } from '../../../repeat/grid.ts';
import { openResist, resistSamples } from '../../resist/index.ts';
import type { Resist } from '../../words/work.ts';

/** The resist that a step names. @throws Fault (usage) where there is none. */
export function requireResist(resists: Readonly<Record<string, Resist>>, name: string): Resist {
  if (Object.hasOwn(resists, name)) return resists[name];
  throw new Fault({
    kind: 'usage',
    expected: 'the resist that the step names',
    subject: 'where it lies',
    received: `none of the name "${name}"`,
    remedy: 'Paint it, or lay the step everywhere.',
  });
}

/** The samples of a resist on the pixels of a tile, white where a stroke went. */
export function paintedResist(resist: Resist, grid: Grid): Uint8Array {
  return resistSamples(resist, grid);
}

/** Paints resists that grow: of one that has the strokes of the last and more, only those are painted. */
export class GrowingResist {
  #last?: { readonly strokes: readonly string[]; readonly shape: string; readonly samples: Uint8Array };

  samples({ strokes }: Resist, grid: Grid): Uint8Array {
    const written = strokes.map((stroke) => JSON.stringify(stroke));
    const shape = JSON.stringify([grid.repeat, grid.tileWidth, grid.tileHeight]);
    const last = this.#last;
    const goesOn = last?.shape === shape && last.strokes.every((stroke, at) => stroke === written[at]);
    const before = goesOn ? last.strokes.length : 0;
    // What was given out for a look stays as it was.
    const open = openResist(grid, goesOn ? last.samples.slice() : undefined);
    for (const stroke of strokes.slice(before)) open.add(stroke);
    this.#last = { strokes: written, shape, samples: open.samples };
    return open.samples;
  }
}
