import { canonicalJson, sha256 } from '../disk/hash.ts';
import type { Item } from './item.ts';

/**
 * The order in which items are made: those that share a texture stand together, then those that share a
 * tile, so that what is kept is used again soon and can be given up.
 */
export function orderForWork(items: readonly Item[]): Item[] {
  const keyed = items.map((item, index) => ({ item, index, texture: textureKey(item) }));
  const shared = new Map<string, number>();
  for (const { texture } of keyed) shared.set(texture, (shared.get(texture) ?? 0) + 1);
  const first = new Map<string, number>();
  for (const { texture, index } of keyed) if (!first.has(texture)) first.set(texture, index);
  const group = (one: (typeof keyed)[number]) =>
    shared.get(one.texture)! > 1 ? first.get(one.texture)! : one.index;
  return keyed.sort((a, b) => group(a) - group(b) || a.index - b.index).map(({ item }) => item);
}

/** Equal for items whose effects prepare the same models. */
function textureKey({ inputs, grid }: Item): string {
  const steps = inputs.steps.map(({ code, parameters, seed }) => ({ code, parameters, seed }));
  return sha256(canonicalJson({ steps, box: grid.box, quality: inputs.quality }));
}
