import type { Box } from 'tenter';
import type { WetModel } from './model.ts';
import { edgeRow, loadRow, openBrush, sharedRows } from './paint.ts';

/** mm from sample to sample along a row: as fine as production, so that the mean is that of the finished cloth. */
const FINE = 25.4 / 300;
const ROWS = 96;
const MOST_SAMPLES = 512;

/** The bend of `loadOf` makes the mean answer less than in proportion; each round leaves about a third of what was off. */
const ROUNDS = 4;

/** Moves the load until its painted mean is 1: fine edges are drawn on top of a flow that kept its total. */
export function levelLoad(model: WetModel, box: Box): WetModel {
  let level = 0;
  for (let round = 0; round < ROUNDS; round++) level -= 1.3 * Math.log(meanLoad({ ...model, level }, box));
  return { ...model, level };
}

function meanLoad(model: WetModel, box: Box): number {
  const count = Math.min(MOST_SAMPLES, Math.max(8, Math.round(box.width / FINE)));
  const row = new Float32Array(count);
  // The noises as production's pixels show them; samples stand further apart.
  const brush = { ...openBrush(model, FINE, FINE, count), step: box.width / count };
  let sum = 0;
  for (let j = 0; j < ROWS; j++) {
    const y = ((j + 0.5) / ROWS) * box.height;
    // Rows begin at shifted places, so that no column is favoured.
    const x0 = ((j * 0.618034) % 1) * brush.step;
    sharedRows(brush, x0, y, count);
    edgeRow(brush, x0, y, count);
    loadRow(brush, { x0, y, skip: 0, count, at: 0 }, row);
    for (const value of row) sum += value;
  }
  return sum / (ROWS * count);
}
