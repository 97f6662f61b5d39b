import type { ClothPiece } from './piece.ts';

/** What the rows of a piece meet at each knot, carried on from row to row. */
export interface KnotRow {
  readonly piece: ClothPiece;
  /** The pick of the piece that holds the row's lower edge. */
  readonly pick: Int32Array;
  /** Ribs counted down to the row's lower edge: pick number and the part of it. */
  readonly ribs: Float64Array;
  /** Means over the row, weighted by how much of it each pick fills. */
  readonly tone: Float64Array;
  readonly gloss: Float64Array;
}

/** Opens the knots of a piece for rows from `top` mm downwards. */
export function openKnots(piece: ClothPiece, top: number): KnotRow {
  const { knots } = piece;
  const row = {
    piece,
    pick: new Int32Array(knots),
    ribs: new Float64Array(knots),
    tone: new Float64Array(knots),
    gloss: new Float64Array(knots),
  };
  for (let knot = 0; knot < knots; knot++) {
    const first = knot * piece.picks;
    let pick = 0;
    while (piece.edge[first + pick + 1] <= top) pick++;
    row.pick[knot] = pick;
    row.ribs[knot] = ribsAt(piece, first, pick, top);
  }
  return row;
}

/** Moves on to the row whose lower edge lies at `bottom` mm. */
export function stepKnots({ piece, pick, ribs, tone, gloss }: KnotRow, bottom: number): void {
  const { picks, edge } = piece;
  for (let knot = 0; knot < ribs.length; knot++) {
    const first = knot * picks;
    const upper = ribs[knot];
    let at = first + pick[knot];
    let from = upper;
    let toneSum = 0;
    let glossSum = 0;
    while (edge[at + 1] <= bottom) {
      const next = at + 1 - first + piece.firstPick;
      toneSum += (next - from) * piece.tone[at];
      glossSum += (next - from) * piece.gloss[at];
      from = next;
      at++;
    }
    const lower = ribsAt(piece, first, at - first, bottom);
    const share = 1 / (lower - upper);
    tone[knot] = (toneSum + (lower - from) * piece.tone[at]) * share;
    gloss[knot] = (glossSum + (lower - from) * piece.gloss[at]) * share;
    ribs[knot] = lower;
    pick[knot] = at - first;
  }
}

function ribsAt({ edge, firstPick }: ClothPiece, first: number, pick: number, y: number): number {
  const upper = edge[first + pick];
  return firstPick + pick + (y - upper) / (edge[first + pick + 1] - upper);
}
