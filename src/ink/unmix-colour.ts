import { decodeSrgb } from '../colour/srgb.ts';
import { createEyeMetric } from './eye-metric.ts';

/*
 * The rule by which a colour is told apart into inks. Distances are those of the eye's metric at the colour; about 1
 * is just seen.
 *
 * 1. A colour this near to an ink is that ink alone.
 * 2. A colour this near to the mixes of two inks is a mix of those two, though three might come nearer. Those mixes
 *    lie on a straight line of light; but what draws a soft edge on screen mostly mixes encoded values, and so a
 *    colour on the straight line between the encoded values counts as one of the two as well.
 * 3. Of two pairs that do as well within `TIED` the one whose inks lie farther apart is it: an edge between red and
 *    ground is that, though a pink should lie between.
 * 4. Else it is the nearest mix of three.
 *
 * From each to the next the amounts go over little by little, over as far again, so that a wash stays a wash.
 */
const ALONE = 1;
const PAIRED = 1.5;
const TIED = 0.4;
/** What being told by fewer inks is worth where threes are chosen; above all that a distance within them can be. */
const SECOND = 1e-3;

/** Fills `inks` and `amounts` (three each, 0..1, adding up to 1) with the mix of an encoded colour, 0..1. */
export type ColourUnmixer = (red: number, green: number, blue: number) => void;

/** Where a colour unmixer leaves its answer. */
export interface ColourMix {
  readonly inks: Int32Array;
  readonly amounts: Float64Array;
}

/**
 * Prepares the unmixing of single colours: a few microseconds each, by trying all pairs and threes.
 *
 * @param colours Encoded sRGB of the inks, 0..1, three numbers each; one ink or more.
 */
export function createColourUnmixer(colours: Float64Array, mix: ColourMix): ColourUnmixer {
  const count = colours.length / 3;
  const metric = createEyeMetric();
  const lights = colours.map((value) => decodeSrgb(value));
  const [seen, seenEncoded] = [new Float64Array(3 * count), new Float64Array(3 * count)];
  const [dots, dotsEncoded] = [new Float64Array(count * count), new Float64Array(count * count)];
  const pairs = {
    /** Distance of the line of light, and of the nearer of both lines. */
    light: new Float64Array(count * count),
    near: new Float64Array(count * count),
    /** The share of the second ink, 0..1. */
    share: new Float64Array(count * count),
    span: new Float64Array(count * count),
  };
  const threes = threesOf(count);
  const edges = new Int32Array(3);

  const choose = (): number => {
    let [best, least] = [0, Number.POSITIVE_INFINITY];
    for (let three = 0; three < threes.length; three += 3) {
      const cost = costOf(threes[three], threes[three + 1], threes[three + 2]);
      if (cost < least) [best, least] = [three, cost];
    }
    return best;
  };

  /** What a three costs: how near its most frugal telling comes. */
  const costOf = (i: number, j: number, k: number): number => {
    const { near } = pairs;
    const [ij, ik, jk] = [near[i * count + j], near[i * count + k], near[j * count + k]];
    const first = Math.min(ij, ik, jk);
    const second = ij + ik + jk - first - Math.max(ij, ik, jk);
    const single = Math.sqrt(Math.min(dots[i * count + i], dots[j * count + j], dots[k * count + k]));
    const third = rise(first, PAIRED);
    const paired = third === 0 ? first : (1 - third) * first + third * (2 * PAIRED + distanceOf(i, j, k));
    const several = rise(single, ALONE);
    const cost = (1 - several) * (single - 2 * ALONE) + several * paired;
    return cost + SECOND * Math.min(second - first, 2 * TIED);
  };

  const weights = new Float64Array(2);
  /** How far the triangle of three inks is; where the colour stands over it, `weights` are the shares of j and k. */
  const distanceOf = (i: number, j: number, k: number): number => {
    const [ii, ij, ik] = [dots[i * count + i], dots[i * count + j], dots[i * count + k]];
    const [jj, jk, kk] = [dots[j * count + j], dots[j * count + k], dots[k * count + k]];
    const [uu, vv, uv] = [ii + jj - 2 * ij, ii + kk - 2 * ik, ii - ij - ik + jk];
    const [u, v] = [ii - ij, ii - ik];
    const area = uu * vv - uv * uv;
    weights[0] = -1;
    if (area > 1e-9 * uu * vv) {
      const [b, c] = [(vv * u - uv * v) / area, (uu * v - uv * u) / area];
      if (b >= 0 && c >= 0 && b + c <= 1) {
        [weights[0], weights[1]] = [b, c];
        return Math.sqrt(Math.max(0, ii - b * u - c * v));
      }
    }
    return Math.min(pairs.light[i * count + j], pairs.light[i * count + k], pairs.light[j * count + k]);
  };

  const { inks, amounts } = mix;
  const places = new Int32Array(6);
  const tell = (three: number): void => {
    const [i, j, k] = [threes[three], threes[three + 1], threes[three + 2]];
    inks[0] = i;
    inks[1] = j;
    inks[2] = k;
    amounts.fill(0);
    edges[0] = i * count + j;
    edges[1] = i * count + k;
    edges[2] = j * count + k;
    places.set([0, 1, 0, 2, 1, 2]);
    const first = Math.min(pairs.near[edges[0]], pairs.near[edges[1]], pairs.near[edges[2]]);
    const third = rise(first, PAIRED);
    const alone = nearestOf(i, j, k);
    const single = 1 - rise(Math.sqrt(dots[inks[alone] * (count + 1)]), ALONE);
    amounts[alone] += single;
    addPairs((1 - single) * (1 - third), first);
    if (third > 0) addThree((1 - single) * third);
  };

  const nearestOf = (i: number, j: number, k: number): number => {
    const [ii, jj, kk] = [dots[i * (count + 1)], dots[j * (count + 1)], dots[k * (count + 1)]];
    if (ii <= jj && ii <= kk) return 0;
    return jj <= kk ? 1 : 2;
  };

  const addPairs = (weight: number, first: number): void => {
    let left = weight;
    let done = 0;
    for (let turn = 0; turn < 3; turn++) {
      let longest = -1;
      for (let edge = 0; edge < 3; edge++) {
        if (done & (1 << edge)) continue;
        if (longest < 0 || pairs.span[edges[edge]] > pairs.span[edges[longest]]) longest = edge;
      }
      done |= 1 << longest;
      const part = left * (1 - rise(pairs.near[edges[longest]] - first, TIED));
      addPair(longest, part);
      left -= part;
    }
  };

  const addPair = (edge: number, weight: number): void => {
    const share = pairs.share[edges[edge]];
    amounts[places[2 * edge]] += weight * (1 - share);
    amounts[places[2 * edge + 1]] += weight * share;
  };

  const addThree = (weight: number): void => {
    distanceOf(inks[0], inks[1], inks[2]);
    if (weights[0] < 0) {
      let nearest = 0;
      for (let edge = 1; edge < 3; edge++)
        if (pairs.light[edges[edge]] < pairs.light[edges[nearest]]) nearest = edge;
      addPair(nearest, weight);
      return;
    }
    amounts[0] += weight * (1 - weights[0] - weights[1]);
    amounts[1] += weight * weights[0];
    amounts[2] += weight * weights[1];
  };

  return (red, green, blue) => {
    metric.at(red, green, blue);
    see(metric.light, lights, [decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue)], seen);
    see(metric.encoded, colours, [red, green, blue], seenEncoded);
    dotsOf(seen, dots);
    dotsOf(seenEncoded, dotsEncoded);
    measurePairs(dots, dotsEncoded, pairs);
    tell(choose());
  };
}

/** 0 up to a limit, 1 from twice that on, a straight line between. */
function rise(distance: number, limit: number): number {
  if (distance <= limit) return 0;
  return distance >= 2 * limit ? 1 : distance / limit - 1;
}

/** All threes of so many inks; of one ink or two they hold one twice. */
function threesOf(count: number): Int32Array {
  if (count < 3) return Int32Array.of(0, count - 1, count - 1);
  const threes: number[] = [];
  for (let i = 0; i < count; i++)
    for (let j = i + 1; j < count; j++) for (let k = j + 1; k < count; k++) threes.push(i, j, k);
  return Int32Array.from(threes);
}

/** Where the inks stand, as seen from a colour. */
function see(metric: Float64Array, inks: Float64Array, colour: readonly number[], seen: Float64Array): void {
  for (let at = 0; at < inks.length; at += 3) {
    const [r, g, b] = [inks[at] - colour[0], inks[at + 1] - colour[1], inks[at + 2] - colour[2]];
    for (let row = 0; row < 3; row++)
      seen[at + row] = metric[3 * row] * r + metric[3 * row + 1] * g + metric[3 * row + 2] * b;
  }
}

function dotsOf(seen: Float64Array, dots: Float64Array): void {
  const count = seen.length / 3;
  for (let i = 0; i < count; i++) {
    for (let j = i; j < count; j++) {
      const [a, b] = [3 * i, 3 * j];
      const dot = seen[a] * seen[b] + seen[a + 1] * seen[b + 1] + seen[a + 2] * seen[b + 2];
      dots[i * count + j] = dot;
      dots[j * count + i] = dot;
    }
  }
}

interface Pairs {
  readonly light: Float64Array;
  readonly near: Float64Array;
  readonly share: Float64Array;
  readonly span: Float64Array;
}

function measurePairs(
  dots: Float64Array,
  dotsEncoded: Float64Array,
  { light, near, share, span }: Pairs,
): void {
  const count = Math.sqrt(dots.length);
  for (let i = 0; i < count; i++) {
    for (let j = i; j < count; j++) {
      const at = i * count + j;
      const length = dots[i * (count + 1)] + dots[j * (count + 1)] - 2 * dots[at];
      share[at] = shareOf(dots[i * (count + 1)] - dots[at], length);
      light[at] = distanceAt(dots, i, j, share[at], length);
      const encodedLength = dotsEncoded[i * (count + 1)] + dotsEncoded[j * (count + 1)] - 2 * dotsEncoded[at];
      const encodedShare = shareOf(dotsEncoded[i * (count + 1)] - dotsEncoded[at], encodedLength);
      near[at] = Math.min(light[at], distanceAt(dotsEncoded, i, j, encodedShare, encodedLength));
      span[at] = length;
    }
  }
}

function shareOf(along: number, length: number): number {
  if (!(length > 1e-12) || along <= 0) return 0;
  return along >= length ? 1 : along / length;
}

/** The distance of the place at a share of the way from one ink to another. */
function distanceAt(dots: Float64Array, i: number, j: number, share: number, length: number): number {
  const count = Math.sqrt(dots.length);
  const start = dots[i * (count + 1)];
  const along = start - dots[i * count + j];
  return Math.sqrt(Math.max(0, start - 2 * share * along + share * share * length));
}
