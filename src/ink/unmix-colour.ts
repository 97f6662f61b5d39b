import { createThree, PAIR_ENDS } from './three.ts';

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
 * From each to the next the amounts go over little by little, over as far again, so that a wash stays a wash. Where
 * a colour lies as near to two threes that share no pair, far from all pairs, the amounts must jump: no way to tell
 * all colours by three of four inks is without a jump (a ball cannot be drawn back onto its surface).
 */
const ALONE = 1;
const PAIRED = 1.5;
const TIED = 0.4;
/** What a second pair that does as well is worth where threes are chosen: little, for it only settles draws. */
const SECOND = 1e-3;

/** Tells single colours apart. */
export interface ColourUnmixer {
  /** The places of the inks of every three that there is, three numbers each. */
  readonly threes: Int32Array;
  /** What was told last: three inks by their places and their amounts, 0..1, which add up to 1. */
  readonly inks: Int32Array;
  readonly amounts: Float64Array;
  /** Sets the colour: levels of the eye's metric. */
  aim(red: number, green: number, blue: number): void;
  /** Which of all threes tells it best: a place in `threes`. */
  search(): number;
  /** Which of some threes tells it best: `count` of `among` from `at` on, places in `threes`. */
  choose(among: Uint16Array, at: number, count: number): number;
  /** Tells it by a three. */
  tell(three: number): void;
}

/** @param colours Encoded sRGB of the inks, 0..1, three numbers each; one ink or more. */
export function createColourUnmixer(colours: Float64Array): ColourUnmixer {
  const threes = threesOf(colours.length / 3);
  const three = createThree(colours);
  const { alone, light, near, share, span, inside } = three;
  const inks = new Int32Array(3);
  const amounts = new Float64Array(3);

  /** What a three costs: how near its most frugal telling comes. */
  const costOf = (at: number): number => {
    three.measure(threes[at], threes[at + 1], threes[at + 2]);
    const first = Math.min(near[0], near[1], near[2]);
    const second = near[0] + near[1] + near[2] - first - Math.max(near[0], near[1], near[2]);
    const single = Math.min(alone[0], alone[1], alone[2]);
    const third = rise(first, PAIRED);
    let paired = first;
    if (third > 0) {
      const over = three.triangle();
      const away = over >= 0 ? over : Math.min(light[0], light[1], light[2]);
      paired = (1 - third) * first + third * (2 * PAIRED + away);
    }
    const several = rise(single, ALONE);
    const cost = (1 - several) * (single - 2 * ALONE) + several * paired;
    return cost + SECOND * Math.min(second - first, 2 * TIED);
  };

  const addPair = (pair: number, weight: number): void => {
    amounts[PAIR_ENDS[pair][0]] += weight * (1 - share[pair]);
    amounts[PAIR_ENDS[pair][1]] += weight * share[pair];
  };

  const addPairs = (weight: number, first: number): void => {
    let left = weight;
    let done = 0;
    for (let turn = 0; turn < 3 && left > 0; turn++) {
      let longest = -1;
      for (let pair = 0; pair < 3; pair++)
        if (!(done & (1 << pair)) && (longest < 0 || span[pair] > span[longest])) longest = pair;
      done |= 1 << longest;
      const part = left * (1 - rise(near[longest] - first, TIED));
      addPair(longest, part);
      left -= part;
    }
  };

  const addThree = (weight: number): void => {
    if (three.triangle() < 0) addPair(leastOf(light), weight);
    else for (let place = 0; place < 3; place++) amounts[place] += weight * inside[place];
  };

  return {
    ...{ threes, inks, amounts, aim: three.aim },
    search() {
      let best = 0;
      let least = Number.POSITIVE_INFINITY;
      for (let at = 0; at < threes.length; at += 3) {
        const cost = costOf(at);
        if (cost < least) [best, least] = [at, cost];
      }
      return best;
    },
    choose(among, at, count) {
      if (count === 1) return among[at];
      let best = 0;
      let least = Number.POSITIVE_INFINITY;
      for (let index = at; index < at + count; index++) {
        const cost = costOf(among[index]);
        if (cost < least) [best, least] = [among[index], cost];
      }
      return best;
    },
    tell(at) {
      for (let place = 0; place < 3; place++) inks[place] = threes[at + place];
      three.measure(inks[0], inks[1], inks[2]);
      amounts.fill(0);
      const nearest = leastOf(alone);
      const several = rise(alone[nearest], ALONE);
      amounts[nearest] += 1 - several;
      if (several === 0) return;
      const first = Math.min(near[0], near[1], near[2]);
      const third = rise(first, PAIRED);
      addPairs(several * (1 - third), first);
      if (third > 0) addThree(several * third);
    },
  };
}

function leastOf(values: Float64Array): number {
  if (values[0] <= values[1] && values[0] <= values[2]) return 0;
  return values[1] <= values[2] ? 1 : 2;
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
