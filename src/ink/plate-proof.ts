import { clampToUnit, encodeByTable } from '../colour/srgb.ts';
import type { ShadeCard } from './card.ts';
import { inkLights } from './linear-inks.ts';
import { type Light3, overprint } from './overprint.ts';
import type { Plates } from './plates.ts';

/**
 * A row of a tile put together again from its plates, as linear light: where areas add up to one or less they lie
 * one beside the other; what is more lies one over the other, in the order of printing.
 *
 * @param into Three numbers per pixel, 0..1.
 */
export function proofRow(
  { planes, width, inks }: Plates,
  card: ShadeCard,
  y: number,
  into: Float32Array,
): void {
  const ofCard = inkLights(card);
  const lights = inks.map((ink) => ofCard[card.inks.indexOf(ink)]);
  const groundAt = card.inks.findIndex(({ kind }) => kind === 'ground');
  const ground: Light3 = groundAt < 0 ? [1, 1, 1] : ofCard[groundAt];
  for (let x = 0; x < width; x++) {
    let [bare, red, green, blue] = [1, 0, 0, 0];
    for (let ink = 0; ink < inks.length; ink++) {
      const area = planes[ink][y * width + x] / 255;
      if (area === 0) continue;
      // First on what is bare; the rest on what was printed before.
      const beside = Math.min(area, bare);
      const over = area - beside;
      const printed = 1 - bare;
      const mean: Light3 = printed > 0 ? [red / printed, green / printed, blue / printed] : ground;
      const light = overprint(lights[ink], inks[ink].covers, mean, ground);
      red += beside * lights[ink][0] + over * (light[0] - mean[0]);
      green += beside * lights[ink][1] + over * (light[1] - mean[1]);
      blue += beside * lights[ink][2] + over * (light[2] - mean[2]);
      bare -= beside;
    }
    into[3 * x] = red + bare * ground[0];
    into[3 * x + 1] = green + bare * ground[1];
    into[3 * x + 2] = blue + bare * ground[2];
  }
}

/** Encoded sRGB bytes of linear light. */
export function bytesOfLight(light: Float32Array, into: Uint8Array): void {
  for (let pixel = 0; 3 * pixel < light.length; pixel++) {
    for (let channel = 0; channel < 3; channel++)
      into[4 * pixel + channel] = Math.round(255 * encodeByTable(clampToUnit(light[3 * pixel + channel])));
    into[4 * pixel + 3] = 255;
  }
}
