import { labOfBytes } from '../colour/lab.ts';
import type { Layout } from '../repeat/layout.ts';
import type { Ink } from './card.ts';
import type { Plates } from './plates.ts';
import { type TilePlace, tilePlaces } from './tile-place.ts';

/** What trapping came to, of one ink. */
export interface Trapped {
  /** Places in the plates' `inks`: what was spread, and the inks that it spread under. */
  readonly ink: number;
  readonly under: readonly number[];
  /** Pixels of area that were added. */
  readonly added: number;
  /**
   * px: the median width of motifs narrower than two traps, where they are more than a twentieth of what was met:
   * the trap fills them from both sides.
   */
  readonly narrow?: number;
}

/** An edge falls by this much or more from a pixel to the next, of 255; softer ones overlap as they are. */
const EDGE = 32;
/** Of the edges that were met. */
const NARROW_SHARE = 0.05;

/**
 * Which inks an ink spreads under. Where the later of two hides the earlier, the earlier goes on under it and no
 * edge moves; where it lets light through, the lighter spreads under the darker, whose edge is the one that is seen.
 */
export function spreadsUnder(inks: readonly Ink[], ink: number): number[] {
  const lightness = inks.map(({ colour }) => labOfBytes(colour).L);
  return inks.flatMap((_, other) => {
    if (other === ink) return [];
    const later = Math.max(ink, other);
    const spreads = inks[later].covers ? later === other : lightness[ink] > lightness[other];
    return spreads ? [other] : [];
  });
}

/**
 * Spreads inks under those they meet, so that no ground shows where screens stand a little aside. Widths are exact
 * Euclidean distances, a fraction of a pixel as a fraction of its area, over the edges of the tile as it stands in
 * repeat. Against bare ground nothing spreads. Changes the planes in place.
 *
 * @param width px, above 0.
 */
export function trapPlates(plates: Plates, layout: Layout, width: number): Trapped[] {
  const { inks, planes } = plates;
  const place = tilePlaces(layout, plates.width, plates.height);
  const disc = discOf(width);
  // Each is spread over what the others were before any was: none spreads under another's spread.
  const spread = new Uint8Array(plates.width * plates.height);
  const spreads = planes.map((plane, ink) => {
    const under = spreadsUnder(inks, ink);
    if (under.length === 0) return { ink, under, list: listOf(spread) };
    const cover = coverOf(planes, under);
    const { met, short } = spreadInto(spread, { plates, plane, cover, place, disc, width });
    const isNarrow = short.length > NARROW_SHARE * met;
    return { ink, under, list: listOf(spread), narrow: isNarrow ? median(short) : undefined };
  });
  return spreads.map(({ ink, under, list, narrow }) => {
    const plane = planes[ink];
    let added = 0;
    list.places.forEach((at, index) => {
      added += (list.values[index] - plane[at]) / 255;
      plane[at] = list.values[index];
    });
    return { ink, under, added, narrow };
  });
}

/** What stands in a plane, and clears it: of whole planes there would be one for each ink. */
function listOf(spread: Uint8Array): { readonly places: Uint32Array; readonly values: Uint8Array } {
  let count = 0;
  for (const value of spread) if (value > 0) count++;
  const places = new Uint32Array(count);
  const values = new Uint8Array(count);
  for (let at = 0, to = 0; to < count; at++) {
    if (spread[at] === 0) continue;
    places[to] = at;
    values[to++] = spread[at];
    spread[at] = 0;
  }
  return { places, values };
}

/** The area that some inks cover together. */
function coverOf(planes: readonly Uint8Array[], under: readonly number[]): Uint8Array {
  if (under.length === 1) return planes[under[0]];
  const cover = Uint8Array.from(planes[under[0]]);
  for (const ink of under.slice(1)) {
    const plane = planes[ink];
    for (let at = 0; at < cover.length; at++) cover[at] = Math.min(255, cover[at] + plane[at]);
  }
  return cover;
}

interface Offset {
  readonly dx: number;
  readonly dy: number;
  /** Of 255: how much of a pixel there a spread from a whole one covers, before it is cut off at 255. */
  readonly reach: number;
}

/**
 * What a whole pixel spreads to. Its edge lies half a pixel from its centre; a pixel at distance d is then covered
 * by `width + 1 - d`, which of a straight edge is its area.
 */
function discOf(width: number): Offset[] {
  const reach = Math.ceil(width + 1);
  const disc: Offset[] = [];
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) {
      const value = 255 * (width + 1 - Math.hypot(dx, dy));
      if ((dx !== 0 || dy !== 0) && value > 0) disc.push({ dx, dy, reach: value });
    }
  return disc;
}

interface Spreading {
  readonly plates: Plates;
  readonly plane: Uint8Array;
  readonly cover: Uint8Array;
  readonly place: TilePlace;
  readonly disc: readonly Offset[];
  readonly width: number;
}

/** Writes what an ink comes to where it spreads; elsewhere nothing. */
function spreadInto(spread: Uint8Array, spreading: Spreading) {
  const { plates, plane, cover, place, disc, width } = spreading;
  const short: number[] = [];
  let met = 0;
  const most = 2 * width;
  const inner = Math.ceil(width + 1);
  for (let y = 0; y < plates.height; y++)
    for (let x = 0; x < plates.width; x++) {
      const at = y * plates.width + x;
      if (plane[at] === 0 || !isEdge(spreading, x, y)) continue;
      const isInside = x >= inner && y >= inner && x < plates.width - inner && y < plates.height - inner;
      for (const { dx, dy, reach } of disc) {
        const to = isInside ? at + dy * plates.width + dx : place(x + dx, y + dy);
        if (cover[to] === 0) continue;
        const gain = Math.min(255, reach + plane[at] - 255) - plane[to];
        if (gain < 0.5) continue;
        const value = Math.min(255, plane[to] + Math.min(cover[to], Math.round(gain)));
        if (value > spread[to]) spread[to] = value;
      }
      const run = shortestRun(spreading, x, y, most);
      if (run === undefined) continue;
      met++;
      if (run < most) short.push(run);
    }
  return { met, short };
}

/** True where an ink ends: a pixel beside it has much less. Farther in, another is nearer to all that is outside. */
function isEdge({ plates, plane, place }: Spreading, x: number, y: number): boolean {
  const least = plane[y * plates.width + x] - EDGE;
  if (least < 0) return false;
  for (let dy = -1; dy <= 1; dy++)
    for (let dx = -1; dx <= 1; dx++) if (plane[place(x + dx, y + dy)] <= least) return true;
  return false;
}

const STRAIGHT_WAYS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

/** How far the motif that begins beside a pixel goes on, px, counted up to `most`; none where none begins. */
function shortestRun({ cover, plane, place }: Spreading, x: number, y: number, most: number) {
  let shortest: number | undefined;
  for (const [dx, dy] of STRAIGHT_WAYS) {
    if (!isMotif(cover, plane, place(x + dx, y + dy))) continue;
    let run = 1;
    while (run < most && isMotif(cover, plane, place(x + (run + 1) * dx, y + (run + 1) * dy))) run++;
    if (shortest === undefined || run < shortest) shortest = run;
  }
  return shortest;
}

function isMotif(cover: Uint8Array, plane: Uint8Array, at: number): boolean {
  return cover[at] > 127 && plane[at] < 128;
}

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  return values[values.length >> 1];
}
