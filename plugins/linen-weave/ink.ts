import { lightOfLoad, smoothstep } from 'tenter';
import type { Draft } from './draft.ts';
import { farInkOf } from './far.ts';
import { floatsOf } from './float.ts';
import type { LitYarn } from './light.ts';
import type { ClothInk, YarnSet } from './model.ts';
import { SECTION_STEPS } from './steps.ts';

/**
 * A screen or a block rests on what is highest, and presses its ink down from there: mm below the crowns to which it
 * reaches whole, or the share of the height of the crowns over the middle of the cloth where that is more; and over
 * which share of that height it runs out.
 */
const REACH = 0.15;
const REACH_SHARE = 0.5;
const RUNS_OUT = 0.48;

/**
 * mm that ink is carried along the fibres to the middle of its float, and across them to the middle of the thread;
 * and the most of the way that it goes. All the way, each float would be of one colour, as in a tapestry.
 */
const WICK = { along: 0.32, across: 0.19 } as const;
const MOST_OF_WAY = { along: 0.8, across: 0.55 } as const;

/** Prints a cloth, or nothing at `amount` 0. */
export function inkOn(warp: YarnSet, weft: YarnSet, draft: Draft, amount: number): ClothInk | null {
  if (amount === 0) return null;
  const top = Math.max(crownOf(warp.lit), crownOf(weft.lit));
  const printed = {
    warp: inkOf(warp.lit, top, amount),
    weft: inkOf(weft.lit, top, amount),
    ground: lightOfLoad(1 - amount),
  };
  const floats = floatsOf(draft);
  const pull = floats.length.map((length, at) => {
    const { cellLength } = (draft.warpUp[at] ? warp : weft).threads;
    return amount * shareOfWay('along', (length * cellLength) / 2);
  });
  return {
    ...printed,
    floats: { toMiddle: floats.toMiddle, pull },
    warpAcross: amount * shareOfWay('across', warp.evenHalf),
    weftAcross: amount * shareOfWay('across', weft.evenHalf),
    far: farInkOf(printed),
  };
}

/** How much of the way to its middle the ink goes, from an edge that lies `half` mm away. */
function shareOfWay(way: keyof typeof WICK, half: number): number {
  return Math.min(MOST_OF_WAY[way], WICK[way] / half);
}

/** mm, the highest place of a set of yarns over the middle of the cloth. */
function crownOf({ centre, surface }: LitYarn): number {
  return Math.max(...centre) + Math.max(...surface);
}

function inkOf({ centre, surface }: LitYarn, top: number, amount: number): Float32Array {
  const light = new Float32Array(centre.length * SECTION_STEPS);
  for (let row = 0; row < centre.length; row++) {
    for (let k = 0; k < SECTION_STEPS; k++) {
      const bare = bareAt(top - centre[row] - surface[k], top);
      light[row * SECTION_STEPS + k] = lightOfLoad(1 - amount * bare);
    }
  }
  return light;
}

/** The share of the ink that is missing at a place so many mm below the crowns, 0..1. */
function bareAt(depth: number, top: number): number {
  const beyond = depth - Math.max(REACH, REACH_SHARE * top);
  return smoothstep(beyond / (RUNS_OUT * top));
}
