import { type Swatch, tileOf } from './swatch.ts';

/** The same swatches, those of one tile together; within a tile their order stays. */
export function byTile(swatches: readonly Swatch[]): Swatch[] {
  return [...tilesOf(swatches).values()].flat();
}

/** Swatches by their tile, tiles in the order in which they first come. */
export function tilesOf(swatches: readonly Swatch[]): Map<string, Swatch[]> {
  const tiles = new Map<string, Swatch[]>();
  for (const swatch of swatches) {
    const known = tiles.get(tileOf(swatch));
    if (known) known.push(swatch);
    else tiles.set(tileOf(swatch), [swatch]);
  }
  return tiles;
}
