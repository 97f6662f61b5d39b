import type { KeptWork, OpenedTile } from '../../words/begin.ts';
import type { Laying } from '../../words/work.ts';

/** px per mm that stands in until the person has said the size: the page asks for it. */
const STAND_IN_DENSITY = 10;

/** Under a texture alone. */
export const PLAIN_GROUND = '#ffffff';

export const NOTHING_LAID: Laying = { steps: [], seed: '1' };

/** A work that begins with an artwork, or with a texture alone. */
export function beginWork(
  id: string,
  tile: OpenedTile | undefined,
  laying: Laying = NOTHING_LAID,
  ground = PLAIN_GROUND,
): KeptWork {
  const size =
    tile?.size ??
    (tile ? { width: sideOf(tile.width), height: sideOf(tile.height) } : { width: 200, height: 200 });
  const work = {
    ...{ version: 1 as const, tile: tile?.id, ground, layout: tile?.layout ?? 'straight', size, laying },
    resists: {},
    trials: [],
  };
  return { id, revision: 1, work, past: [], future: [] };
}

function sideOf(pixels: number): number {
  return Math.min(10_000, Math.max(1, pixels / STAND_IN_DENSITY));
}
