import { addBicubicRow, addFractalRow, addInRuns, runLength } from 'tenter';
import type { WateredModel } from './model.ts';
import { LAG_STEPS, ROW } from './press.ts';

/** The samples of a row: the first counted from the corner of the box, mm from one to the next. */
export interface SampleRow {
  readonly first: number;
  readonly count: number;
  readonly step: number;
}

/** What each rib of a piece of cloth is at each sample. */
export interface PressedRows {
  readonly firstRib: number;
  /** Where in the table of marks its lag stands. */
  readonly lag: Int32Array;
  /** How strongly it is marked. */
  readonly press: Float32Array;
}

/** Works out `ribs` ribs from `firstRib` on, each from the middle of it: along a rib light changes, across it hardly. */
export function pressRows(
  model: WateredModel,
  { first, count, step }: SampleRow,
  firstRib: number,
  ribs: number,
): PressedRows {
  const { slope, pitch, quiver, feather } = model;
  const lag = new Int32Array(ribs * count);
  const press = new Float32Array(ribs * count);
  const lags = new Float64Array(runLength(count));
  const presses = new Float64Array(runLength(count));
  for (let rib = 0; rib < ribs; rib++) {
    const y = (firstRib + rib + 0.5) * pitch;
    const at = addInRuns(first, count, lags, (sample, n, offset) => {
      const x = (sample + 0.5) * step;
      for (let k = 0; k < n; k++) lags[offset + k] = slope.x * (x + k * step) + slope.y * y;
      addBicubicRow(model.figure, x, step, y, 1, lags, n, offset);
      for (const noise of [quiver, feather]) addFractalRow(noise, x, step, y, 1, lags, n, offset);
    });
    addInRuns(first, count, presses, (sample, n, offset) =>
      addBicubicRow(model.press, (sample + 0.5) * step, step, y, 1, presses, n, offset),
    );
    for (let k = 0, to = rib * count; k < count; k++, to++) {
      const value = lags[at + k];
      lag[to] = Math.floor((value - Math.floor(value)) * LAG_STEPS) * ROW;
      press[to] = Math.max(0.25, presses[at + k]);
    }
  }
  return { firstRib, lag, press };
}
