import type { KeptLayer } from './kept-planes.ts';
import type { LayerPlace, LentLayer, TextureKeeper } from './textures.ts';

/** Asks a keeper for the layers of a render; nothing for those that have no place with it. */
export async function lendLayers(
  places: readonly (LayerPlace | undefined)[],
  textures?: TextureKeeper,
): Promise<(LentLayer | undefined)[]> {
  const lent: (LentLayer | undefined)[] = [];
  try {
    for (const place of places) {
      const isFilling = lent.some((layer) => layer && !layer.isPainted);
      lent.push(place && (await textures?.lendLayer(place, !isFilling)));
    }
  } catch (error) {
    // Whoever waits for what was lent so far would wait for ever.
    for (const layer of lent) layer?.end(false);
    throw error;
  }
  return lent;
}

/** What a thread is told of a layer on loan. */
export function keptOf(lent: LentLayer | undefined): KeptLayer | undefined {
  return lent && { planes: lent.planes, isPainted: lent.isPainted, patch: lent.patch };
}
