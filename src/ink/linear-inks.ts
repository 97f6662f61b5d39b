import { decodeSrgb } from '../colour/srgb.ts';
import type { ShadeCard } from './card.ts';

/** The linear light of a card's inks, 0..1: red, green and blue of each, in the order of the card. */
export function linearInks(card: ShadeCard): Float32Array {
  return Float32Array.from(card.inks.flatMap(({ colour }) => colour.map((byte) => decodeSrgb(byte / 255))));
}
