import type { Channel } from './channels.ts';
import type { Edge } from './edge-view.ts';

/**
 * Shares of a repeat to either side of an edge that are compared: where the share is small, details are; where it is
 * large, whole cells are that meet the wrong neighbour some way off the edge.
 */
const SHARES = [1 / 30, 1 / 12];
/** px along the edge that are taken together: enough for what is seen in strips as wide as a cell. */
const ALONG = 4;

/** What lies about an edge beside what lies elsewhere in the repeat. */
export interface Strangeness {
  /** The root of the mean squared difference of the strip about the edge from the one most like it. */
  readonly value: number;
  /** The same, for the strip inside whose nearest like is furthest off. */
  readonly inside: number;
}

/**
 * How unlike all strips inside those about an edge are, at the scale where they are most so. Strips are compared as
 * pictures: in a chequer every line along an edge has the same mean, and two rows of one tone do not show in it.
 *
 * @param at The line of the channel that the edge is at, px.
 */
export function strangestOf(channel: Channel, edge: Edge, at: number): Strangeness {
  const lines = linesOf(channel, edge);
  const distances = distancesOf(lines);
  const all = SHARES.map((share) => strangenessAt(distances, lines.length, at, share));
  return all.sort((a, b) => b.value / b.inside - a.value / a.inside)[0];
}

/** px to either side of a place that are compared with others. */
const HALVES = [4, 8, 14];
/** How many times as unlike all others as any place further off. */
const ALONE = 3;

/**
 * Whether there is one place in a profile, the means of lines along an edge, that has no like while all others have
 * theirs: where rows follow upon one another in a circle, one of them may lie wrong way round, wherever the first is.
 *
 * @returns How many times as strange it is; nothing where others are, too.
 */
export function aloneIn(profile: Float64Array, least: number): number | undefined {
  for (const half of HALVES) {
    const count = profile.length;
    if (count < 10 * half) continue;
    const shapes = Array.from(profile, (_, place) => shapeAt(profile, place, half));
    const strange = Float64Array.from(profile, (_, place) => nearestShape(shapes, place, half));
    const at = strange.indexOf(Math.max(...strange));
    const away = (place: number) => Math.min(Math.abs(place - at), count - Math.abs(place - at));
    const others = strange.filter((_, place) => away(place) > 2 * half);
    const ratio = strange[at] / Math.max(...others, Number.MIN_VALUE);
    if (strange[at] > least && ratio > ALONE) return ratio;
  }
  return undefined;
}

/** The root of the mean squared difference from the place elsewhere that is most alike, both about their means. */
function nearestShape(shapes: readonly Float64Array[], place: number, half: number): number {
  const count = shapes.length;
  const own = shapes[place];
  let least = Number.POSITIVE_INFINITY;
  for (const [other, shape] of shapes.entries()) {
    const away = Math.abs(other - place);
    if (Math.min(away, count - away) <= half) continue;
    let sum = 0;
    for (let k = 0; k < shape.length && sum < least; k++) sum += (own[k] - shape[k]) ** 2;
    least = Math.min(least, sum);
  }
  return Math.sqrt(least / (2 * half));
}

function shapeAt(profile: Float64Array, centre: number, half: number): Float64Array {
  const count = profile.length;
  const at = (k: number) => profile[(centre + k - half + count) % count];
  const values = Float64Array.from({ length: 2 * half }, (_, k) => at(k));
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function strangenessAt(distances: Float64Array, count: number, at: number, share: number): Strangeness {
  const half = Math.max(4, Math.round(count * share));
  const centres = Array.from({ length: Math.max(0, count - 2 * half) }, (_, k) => k + half);
  const inside = centres.filter((centre) => Math.abs(centre - at) > 2 * half);
  const about = centres.filter((centre) => Math.abs(centre - at) <= half);
  const nearestTo = (centre: number) => nearestLike(distances, count, centre, inside, half);
  return {
    value: Math.max(...about.map(nearestTo), 0),
    inside: Math.max(...inside.map(nearestTo), Number.MIN_VALUE),
  };
}

function nearestLike(
  distances: Float64Array,
  count: number,
  centre: number,
  others: readonly number[],
  half: number,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (const other of others) {
    if (Math.abs(other - centre) <= half) continue;
    let sum = 0;
    for (let k = -half; k < half && sum < least; k++) sum += distances[(centre + k) * count + other + k];
    least = Math.min(least, sum);
  }
  return Number.isFinite(least) ? Math.sqrt(least / (2 * half)) : 0;
}

/** The lines that run along the edge, each as means of a few pixels. */
function linesOf({ values, width, height }: Channel, edge: Edge): Float64Array[] {
  const [count, along] = edge === 'left and right' ? [width, height] : [height, width];
  const [step, stride] = edge === 'left and right' ? [1, width] : [width, 1];
  return Array.from({ length: count }, (_, line) =>
    Float64Array.from({ length: Math.floor(along / ALONG) }, (_, block) => {
      let sum = 0;
      for (let k = 0; k < ALONG; k++) sum += values[line * step + (block * ALONG + k) * stride];
      return sum / ALONG;
    }),
  );
}

/** The mean squared difference of any two lines. */
function distancesOf(lines: readonly Float64Array[]): Float64Array {
  const count = lines.length;
  const distances = new Float64Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < a; b++) {
      let sum = 0;
      for (let k = 0; k < lines[a].length; k++) sum += (lines[a][k] - lines[b][k]) ** 2;
      distances[a * count + b] = distances[b * count + a] = sum / lines[a].length;
    }
  }
  return distances;
}
