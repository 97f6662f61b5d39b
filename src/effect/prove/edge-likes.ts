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
