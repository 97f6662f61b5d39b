import { cellIndex } from 'tenter';
import type { SilkModel } from './model.ts';

/** A piece of the cloth laid flat, so that whoever paints it need know nothing of repeats. */
export interface ClothPiece {
  readonly firstKnot: number;
  readonly knots: number;
  readonly firstPick: number;
  /** Rows of the tables below, knot by knot: `picks` numbers each. */
  readonly picks: number;
  /** mm of the upper edge of each pick. */
  readonly edge: Float64Array;
  readonly tone: Float32Array;
  readonly gloss: Float32Array;
}

/** Cuts out what is needed between `left` and `right`, `top` and `bottom` mm. */
export function cutPiece(
  { shape, moved, reach, tone, gloss }: SilkModel,
  left: number,
  right: number,
  top: number,
  bottom: number,
): ClothPiece {
  const firstKnot = Math.floor(left / shape.mmPerCellX - 0.5);
  const knots = Math.floor(right / shape.mmPerCellX - 0.5) + 2 - firstKnot;
  const firstPick = Math.floor(top / shape.mmPerCellY) - reach - 2;
  const picks = Math.ceil(bottom / shape.mmPerCellY) + reach + 2 - firstPick;
  const piece = {
    firstKnot,
    knots,
    firstPick,
    picks,
    edge: new Float64Array(knots * picks),
    tone: new Float32Array(knots * picks),
    gloss: new Float32Array(knots * picks),
  };
  for (let pick = 0; pick < picks; pick++) {
    for (let knot = 0, to = pick; knot < knots; knot++, to += picks) {
      const from = cellIndex(shape, firstKnot + knot, firstPick + pick);
      piece.edge[to] = (firstPick + pick) * shape.mmPerCellY + moved[from];
      piece.tone[to] = tone[from];
      piece.gloss[to] = gloss[from];
    }
  }
  return piece;
}
