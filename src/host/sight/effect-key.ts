import type { EffectOrder } from '../../render/orders.ts';

/** What decides all that an effect makes over a box: a picture by what it shows, since its file may be saved anew. */
export function effectKey({ moduleUrl, parameters, seed, pictures = {} }: EffectOrder): unknown {
  const shown = Object.entries(pictures).map(([name, { sha256 }]) => [name, sha256]);
  return [moduleUrl, parameters, seed, shown];
}
