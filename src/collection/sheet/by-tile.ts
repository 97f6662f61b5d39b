import { type Swatch, tileOf } from './swatch.ts';

/** The same swatches, those of one tile together; within a tile their order stays. */
export function byTile(swatches: readonly Swatch[]): Swatch[] {
  return [...tilesOf(swatches).values()].flat();
}

/** Swatches by their tile, tiles in the order in which they first come. */
export function tilesOf(swatches: readonly Swatch[]): Map<string, Swatch[]> {
  return grouped(swatches, tileOf);
}

/** Swatches by a key, keys in the order in which they first come. */
export function grouped(
  swatches: readonly Swatch[],
  keyOf: (swatch: Swatch) => string,
): Map<string, Swatch[]> {
  const groups = new Map<string, Swatch[]>();
  for (const swatch of swatches) {
    const known = groups.get(keyOf(swatch));
    if (known) known.push(swatch);
    else groups.set(keyOf(swatch), [swatch]);
  }
  return groups;
}
