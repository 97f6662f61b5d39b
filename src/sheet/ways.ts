import { MARGIN, type RunStore } from './run-store.ts';
import type { Paint } from './sheet.ts';

/** Below this much paint nobody asks where it came from. */
const TRACE = 1e-5;

/**
 * Carries the ways back along with the paint that passed: it takes the mean way of the cell that it leaves, and
 * one cell more. Called with the amounts as they were before.
 *
 * @param isAcross Whether the run goes along rows.
 */
export function moveWays(run: RunStore, count: number, paint: Paint, isAcross: boolean): void {
  const { cells, amount, passed, wayX, wayY, square } = run;
  const along = isAcross ? wayX : wayY;
  const aside = isAcross ? wayY : wayX;
  const alongCells = isAcross ? paint.wayX : paint.wayY;
  const asideCells = isAcross ? paint.wayY : paint.wayX;
  const squareCells = paint.square;
  let alongIn = 0;
  let asideIn = 0;
  let squareIn = 0;
  for (let k = MARGIN, end = MARGIN + count; k <= end; k++) {
    const through = passed[k];
    let alongOut = 0;
    let asideOut = 0;
    let squareOut = 0;
    let alongNext = 0;
    let squareNext = 0;
    if (through > TRACE * TRACE || through < -TRACE * TRACE) {
      const from = through > 0 ? k - 1 : k;
      const part = amount[from] > TRACE ? through / amount[from] : 0;
      const way = part * along[from];
      asideOut = part * aside[from];
      const far = part * square[from];
      // To the right the way back grows to the left, and the other way about.
      if (through > 0) {
        alongOut = way;
        alongNext = way - through;
        squareOut = far;
        squareNext = far - 2 * way + through;
      } else {
        alongOut = way + through;
        alongNext = way;
        squareOut = far + 2 * way + through;
        squareNext = far;
      }
    }
    if (k > MARGIN) {
      const cell = cells[k - 1];
      alongCells[cell] = along[k - 1] + alongIn - alongOut;
      asideCells[cell] = aside[k - 1] + asideIn - asideOut;
      squareCells[cell] = square[k - 1] + squareIn - squareOut;
    }
    alongIn = alongNext;
    asideIn = asideOut;
    squareIn = squareNext;
  }
}
