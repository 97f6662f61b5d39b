import { type Columns, resolveColumn } from './columns.ts';
import type { Edge, Layout, PieceDraft, Placement } from './piece.ts';
import { RAY_PITCH } from './rays.ts';

/** mm of the sheet of fibres across. */
const DETAIL_WIDTH = 132;

/**
 * Columns without ends: each piece is one period long and meets itself.
 *
 * @param drafts One per different column, in order.
 * @param waves  One per different column: how its left edge wanders, mm; none for straight edges.
 */
export function endlessColumns(
  columns: Columns,
  drafts: readonly PieceDraft[],
  waves: readonly Float64Array[],
  hasSideJoints: boolean,
): Omit<Layout, 'ringPeriod'> {
  const { lattice, width, start, period } = columns;
  const edge = (c: number): Edge => {
    const { id, shift } = resolveColumn(columns, c);
    return { at: c * width + start, wave: waves.length > 0 ? id : -1, shift };
  };
  const placements: Placement[] = [];
  for (let c = -2; (c - 1) * width + start < lattice.ax; c++) {
    const { id, shift } = resolveColumn(columns, c);
    for (let turn = Math.floor(-shift / period); turn * period + shift < lattice.by; turn++) {
      placements.push({
        piece: id,
        left: edge(c),
        right: edge(c + 1),
        top: turn * period + shift,
        bottom: (turn + 1) * period + shift,
        offsetU: c * width + start,
        offsetV: turn * period + shift,
        hasTopJoint: false,
        hasBottomJoint: false,
        hasSideJoints,
      });
    }
  }
  return {
    drafts,
    placements,
    waves,
    detail: {
      lattice: { ax: DETAIL_WIDTH, ay: 0, bx: 0, by: period / Math.max(1, Math.round(period / 200)) },
      stepU: 1,
      stepV: 1,
      rayTurns: [Math.round(DETAIL_WIDTH / RAY_PITCH), 0],
    },
  };
}
