import type { RgbBytes } from '../colour/hex.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import type { ShadeCard } from './card.ts';
import type { Light3 } from './overprint.ts';

/** The linear light of some colours, 0..1: red, green and blue of each, in their order. */
export function linearColours(colours: readonly RgbBytes[]): Float32Array {
  return Float32Array.from(colours.flatMap((colour) => colour.map((byte) => decodeSrgb(byte / 255))));
}

/** The same of a card's inks. */
export function linearInks({ inks }: ShadeCard): Float32Array {
  return linearColours(inks.map(({ colour }) => colour));
}

/** The same, ink by ink. */
export function inkLights(card: ShadeCard): Light3[] {
  const linear = linearInks(card);
  return card.inks.map((_, ink) => [linear[3 * ink], linear[3 * ink + 1], linear[3 * ink + 2]]);
}
