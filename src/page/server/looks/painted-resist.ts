import { Fault } from '../../../fault.ts';
import { sharedSamples } from '../../../picture/index.ts';
import type { Grid } from '../../../repeat/grid.ts';
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

/** The samples of a resist on the pixels of a tile, white where a stroke went; here the room `resist` plugs in. */
export function paintedResist(_resist: Resist, { tileWidth, tileHeight }: Grid): Uint8Array {
  return sharedSamples(tileWidth * tileHeight, 8) as Uint8Array;
}
