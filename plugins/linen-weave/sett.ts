import type { Box } from 'tenter';
import { type Draft, isSymmetry } from './draft.ts';

/**
 * Thread counts that close over a box. Crossing (end i, pick j) is one with (i + ends, j + pickStep)
 * and with (i + endStep, j + picks).
 */
export interface Sett {
  /** Ends in the width of the box. */
  readonly ends: number;
  /** Picks in its height. */
  readonly picks: number;
  /** Picks in the drop: how far the cloth has moved down one box to the right. */
  readonly pickStep: number;
  /** Ends in the brick offset: how far the cloth has moved right one box below. */
  readonly endStep: number;
  /** mm from end to end. */
  readonly endPitch: number;
  /** mm from pick to pick. */
  readonly pickPitch: number;
}

/**
 * The thread counts nearest to the asked densities with which the weave closes over the box.
 *
 * It closes where both lattice vectors, written in threads, are whole and leave the draft as it is:
 * (ends, pickStep) and (endStep, picks). The pair with the smallest sum of squared log ratios wins.
 *
 * @param endsPerMm  Asked, above 0.
 * @param picksPerMm Asked, above 0.
 */
export function snapSett(draft: Draft, box: Box, endsPerMm: number, picksPerMm: number): Sett {
  const { kind, numerator, denominator } = box.layout;
  const brick = kind === 'brick';
  // A drop couples ends to picks; a brick offset does the same with the roles changed.
  const leading = brick ? box.width * endsPerMm : box.height * picksPerMm;
  const following = brick ? box.height * picksPerMm : box.width * endsPerMm;
  const closes = (follower: number, step: number) =>
    brick ? isSymmetry(draft, step, follower) : isSymmetry(draft, follower, step);
  const closesAlone = (leader: number) =>
    brick ? isSymmetry(draft, leader, 0) : isSymmetry(draft, 0, leader);
  const period = Math.max(draft.across, draft.down);
  const best = { leader: 0, follower: 0, step: 0, miss: Number.POSITIVE_INFINITY };
  for (const leader of nearest(leading, denominator, period)) {
    if (misfit(leader, leading) > best.miss) break;
    if (!closesAlone(leader)) continue;
    const step = (leader / denominator) * numerator;
    const follower = nearest(following, 1, period).find((count) => closes(count, step));
    if (follower === undefined) continue;
    const miss = misfit(leader, leading) + misfit(follower, following);
    if (miss < best.miss) Object.assign(best, { leader, follower, step, miss });
  }
  const ends = brick ? best.leader : best.follower;
  const picks = brick ? best.follower : best.leader;
  return {
    ends,
    picks,
    pickStep: brick ? 0 : best.step,
    endStep: brick ? best.step : 0,
    endPitch: box.width / ends,
    pickPitch: box.height / picks,
  };
}

/** Multiples of `step` around `wanted`, the best fit first; enough of them to meet every remainder of `period`. */
function nearest(wanted: number, step: number, period: number): number[] {
  const middle = Math.round(wanted / step);
  const counts: number[] = [];
  for (let k = Math.max(1, middle - period); k <= Math.max(1, middle) + period; k++) counts.push(k * step);
  return counts.sort((a, b) => misfit(a, wanted) - misfit(b, wanted));
}

function misfit(count: number, wanted: number): number {
  return Math.log(count / wanted) ** 2;
}
