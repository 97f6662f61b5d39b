import { type Allot, allotOwn } from './allot.ts';
import type { ClothPiece } from './cloth.ts';
import type { LinenModel } from './model.ts';
import { type Axis, threadAt } from './raster.ts';
import { ALONG_STEPS } from './steps.ts';

/** Where one row of samples cuts each end of a piece of cloth, and which pick lies nearest there. */
export interface Knots {
  /** mm of the end's centre from its even place. */
  readonly centre: Float64Array;
  /** mm, half the end's width. */
  readonly half: Float64Array;
  readonly tone: Float64Array;
  /** Row of the tables along a yarn: course * ALONG_STEPS + step. */
  readonly course: Int32Array;
  /** The sample of the fibre strip. */
  readonly fibre: Int32Array;
  /** The nearest pick, counted in the piece. */
  readonly pick: Int32Array;
  /** mm down to where the end's float takes its ink from; 0 where the cloth is not printed. */
  readonly toInk: Float64Array;
}

/** @param allot Where they lie. */
export function openKnots(ends: number, allot: Allot = allotOwn): Knots {
  return {
    centre: allot(Float64Array, ends),
    half: allot(Float64Array, ends),
    tone: allot(Float64Array, ends),
    course: allot(Int32Array, ends),
    fibre: allot(Int32Array, ends),
    pick: allot(Int32Array, ends),
    toInk: allot(Float64Array, ends),
  };
}

/**
 * mm down to where an end takes its ink from, between two picks of which it lies `distance` below the one and
 * -`next` above the other.
 */
function toInkOfEnd(
  { sett }: LinenModel,
  { ends, warpUp, floats }: ClothPiece,
  at: number,
  distance: number,
  next: number,
): number {
  const over = warpUp[at] ? at : at + ends;
  if (!warpUp[over]) return 0;
  const toCrossing = over === at ? -distance : -next;
  return floats.pull[over] * (toCrossing + floats.toMiddle[over] * sett.pickPitch);
}

/**
 * Fills the knots of sample row `row`.
 *
 * @param down The axis of the picks.
 * @param row  Sample row of the plane.
 */
export function cutEnds(model: LinenModel, piece: ClothPiece, down: Axis, row: number, knots: Knots): void {
  const { ends, firstPick, warp, weft, warpUp } = piece;
  const { samples } = model.warp.fibres;
  const { span, scale } = down;
  const guess = threadAt(down, row) - firstPick;
  // mm from the even place of the piece's pick 0 is place0 * scale; each pick takes 2 * span off.
  const place0 = (2 * row + 1) * down.count - (2 * firstPick + 1) * span;
  for (let end = 0; end < ends; end++) {
    let above = guess;
    let at = above * ends + end;
    let distance = (place0 - 2 * span * above) * scale - weft.offset[at];
    while (distance < 0) {
      above--;
      at -= ends;
      distance = (place0 - 2 * span * above) * scale - weft.offset[at];
    }
    let next = (place0 - 2 * span * (above + 1)) * scale - weft.offset[at + ends];
    while (next >= 0) {
      above++;
      at += ends;
      distance = next;
      next = (place0 - 2 * span * (above + 1)) * scale - weft.offset[at + ends];
    }
    const below = at + ends;
    const t = distance / (distance - next);
    knots.centre[end] = warp.offset[at] + t * (warp.offset[below] - warp.offset[at]);
    knots.half[end] = warp.half[at] + t * (warp.half[below] - warp.half[at]);
    knots.tone[end] = warp.tone[at] + t * (warp.tone[below] - warp.tone[at]);
    knots.course[end] = (2 * warpUp[at] + warpUp[below]) * ALONG_STEPS + Math.floor(t * ALONG_STEPS);
    knots.fibre[end] = warp.fibre[at] + Math.floor(t * samples);
    knots.pick[end] = distance - weft.half[at] <= -next - weft.half[below] ? above : above + 1;
    if (model.ink) knots.toInk[end] = toInkOfEnd(model, piece, at, distance, next);
  }
}
