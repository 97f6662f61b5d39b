import { Fault } from '../../../fault.ts';
import { sharedSamples } from '../../../picture/index.ts';
import type { Grid } from '../../../repeat/grid.ts';
import type { Resist } from '../../words/work.ts';

/** The samples of a resist on the pixels of a tile, white where a stroke went. @throws Fault (usage) where there is none of that name. */
export function paintedResist(
  resists: Readonly<Record<string, Resist>>,
  name: string,
  grid: Grid,
): Uint8Array {
  const resist = Object.hasOwn(resists, name) ? resists[name] : undefined;
  if (resist) return samplesOf(resist, grid);
  throw new Fault({
    kind: 'usage',
    expected: 'the resist that the step names',
    subject: 'where it lies',
    received: `none of the name "${name}"`,
    remedy: 'Paint it, or lay the step everywhere.',
  });
}

/** Here the room `resist` plugs in. Until it is there, no stroke is seen. */
function samplesOf(_resist: Resist, { tileWidth, tileHeight }: Grid): Uint8Array {
  return sharedSamples(tileWidth * tileHeight, 8) as Uint8Array;
}
