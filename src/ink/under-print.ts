import type { Layout } from '../repeat/layout.ts';
import type { Plates } from './plates.ts';
import { type TilePlace, tilePlaces } from './tile-place.ts';

/** From this area on, of 255, a pixel is the ink's own: what lies under it is taken from elsewhere. */
const OWN = 128;

/** The nearer sides first. */
const AROUND = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
] as const;

/**
 * Lets the inks that are printed before an ink go on under all of it, as they stand where they are nearest: it is then
 * printed over them and knocked out of none. A picture does not say what lies under an ink; the nearest is what a
 * draughtsman would take. Where bare ground is nearest nothing is printed under. Changes the planes in place.
 *
 * @param ink The place of the ink in the plates' `inks`.
 * @returns Pixels of area that were added, of all inks together.
 */
export function printUnder({ planes, width, height }: Plates, layout: Layout, ink: number): number {
  const own = planes[ink];
  const nearest = nearestBeside(own, tilePlaces(layout, width, height), width);
  let added = 0;
  const goOn = (at: number, from: number) => {
    for (let earlier = 0; earlier < ink; earlier++) {
      const plane = planes[earlier];
      const before = plane[at];
      plane[at] = Math.min(255, Math.round(before + (plane[from] * own[at]) / (255 - own[from])));
      added += (plane[at] - before) / 255;
    }
  };
  // Soft edges, which the others are taken from, come last.
  for (let at = 0; at < own.length; at++) if (own[at] >= OWN && nearest[at] >= 0) goOn(at, nearest[at]);
  for (let at = 0; at < own.length; at++) if (own[at] > 0 && own[at] < OWN) goOn(at, at);
  return added;
}

/** Of each pixel that is the ink's own the nearest that is not, by steps to eight sides; -1 where none is. */
function nearestBeside(own: Uint8Array, place: TilePlace, width: number): Int32Array {
  const nearest = new Int32Array(own.length).fill(-1);
  const queue = new Int32Array(own.reduce((count, area) => count + Number(area >= OWN), 0));
  let last = 0;
  const beside = (at: number, side: readonly [number, number]) => {
    const x = at % width;
    return place(x + side[0], (at - x) / width + side[1]);
  };
  for (let at = 0; at < own.length; at++) {
    if (own[at] < OWN) continue;
    const side = AROUND.find((one) => own[beside(at, one)] < OWN);
    if (side === undefined) continue;
    nearest[at] = beside(at, side);
    queue[last++] = at;
  }
  for (let next = 0; next < last; next++) {
    for (const side of AROUND) {
      const to = beside(queue[next], side);
      if (own[to] < OWN || nearest[to] >= 0) continue;
      nearest[to] = nearest[queue[next]];
      queue[last++] = to;
    }
  }
  return nearest;
}
