import type { Box, FieldShape } from 'tenter';

/**
 * The cloth as a grid of cells, one row for each pick and a column for each knot: a place where the
 * thickness of all picks is written down.
 */
export interface Loom {
  readonly shape: FieldShape;
  /** Warp threads in the width of the box. */
  readonly ends: number;
}

/** mm from knot to knot: short against the shortest slub, so that straight pieces between them do not show. */
const KNOT_STEP = 0.8;

/**
 * The thread counts nearest to the asked densities with which plain weave closes over the box: end i lies
 * over pick j where i + j is even, so both lattice vectors must span an even sum of ends and picks.
 *
 * @param endsPerMm  Asked, above 0.
 * @param picksPerMm Asked, above 0.
 */
export function setUpLoom(box: Box, endsPerMm: number, picksPerMm: number): Loom {
  const { kind, numerator, denominator } = box.layout;
  const isBrick = kind === 'brick';
  const wantedEnds = box.width * endsPerMm;
  const wantedPicks = box.height * picksPerMm;
  let [ends, picks] = [0, 0];
  if (isBrick) {
    ends = nearestCount(wantedEnds, denominator, (count) => count % 2 === 0);
    const step = (ends / denominator) * numerator;
    picks = nearestCount(wantedPicks, 1, (count) => (count + step) % 2 === 0);
  } else {
    const rows = kind === 'drop' ? denominator : 1;
    picks = nearestCount(wantedPicks, rows, (count) => count % 2 === 0);
    const step = (picks / denominator) * numerator;
    ends = nearestCount(wantedEnds, 1, (count) => (count + step) % 2 === 0);
  }
  const columns = isBrick ? denominator : 1;
  const knots = Math.max(1, Math.round(box.width / KNOT_STEP / columns)) * columns;
  return {
    ends,
    shape: {
      width: knots,
      height: picks,
      lattice: {
        ax: knots,
        ay: kind === 'drop' ? (picks / denominator) * numerator : 0,
        bx: isBrick ? (knots / denominator) * numerator : 0,
        by: picks,
      },
      mmPerCellX: box.width / knots,
      mmPerCellY: box.height / picks,
    },
  };
}

/** The multiple of `step`, at least one, nearest to `wanted` that passes. */
function nearestCount(wanted: number, step: number, passes: (count: number) => boolean): number {
  const middle = Math.max(1, Math.round(wanted / step));
  for (let away = 0; ; away++) {
    const passing = [middle - away, middle + away]
      .map((times) => times * step)
      .filter((count) => count > 0 && passes(count));
    passing.sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted));
    if (passing.length > 0) return passing[0];
  }
}
