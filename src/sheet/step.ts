import { linesAlong } from '../field/lines.ts';
import { dryAndSettle } from './in-place.ts';
import { type Axis, type Notes, openAxis, passLines } from './lines-pass.ts';
import type { SheetRates } from './rates.ts';
import type { Sheet } from './sheet.ts';

/** A sheet that time goes by for. */
export interface RunningSheet {
  readonly sheet: Sheet;
  readonly axes: readonly [Axis, Axis];
  readonly notes: Notes;
  /** Steps taken. */
  step: number;
}

/** Memory for the steps of a sheet. */
export function openSheet(sheet: Sheet): RunningSheet {
  const cells = sheet.water.length;
  return {
    sheet,
    axes: [openAxis(linesAlong(sheet.shape, 'x'), true), openAxis(linesAlong(sheet.shape, 'y'), false)],
    notes: { flow: new Float32Array(cells), dry: new Uint8Array(cells) },
    step: 0,
  };
}

/**
 * One step: water levels itself and runs, paint with it, along one axis and then along the other, each first in
 * turn; then all dries, settles and is lifted in its place. Water lives as long as it is wet; paint is kept.
 */
export function stepSheet(running: RunningSheet, rates: SheetRates): void {
  const { sheet, axes, notes } = running;
  notes.flow.fill(0);
  notes.dry.fill(0);
  const first = running.step % 2;
  passLines(sheet, axes[first], rates, notes);
  passLines(sheet, axes[1 - first], rates, notes);
  dryAndSettle(sheet, rates, notes);
  running.step++;
}
