import type { Box } from 'tenter';
import type { WetModel } from './model.ts';
import { edgeRow, heavyRow, loadRow, openBrush, sharedRows } from './paint.ts';

/** mm from sample to sample along a row: as fine as production, so that the mean is that of the finished cloth. */
const FINE = 25.4 / 300;
const ROWS = 96;
const MOST_SAMPLES = 512;

/** The bend of `loadOf` makes the mean answer less than in proportion; each round leaves about a third of what was off. */
const ROUNDS = 4;

/** Moves the load until its painted mean is 1: fine edges are drawn on top of a flow that kept its total. */
export function levelLoad(model: WetModel, box: Box): WetModel {
  let level = 0;
  for (let round = 0; round < ROUNDS; round++)
    level -= 1.3 * Math.log(meanPaint({ ...model, level }, box).load);
  const { load, heavy } = meanPaint({ ...model, level }, box);
  return { ...model, level, parted: model.parted && { ...model.parted, level: -heavy / load } };
}

/** Of the painted load, and of how much more of it is heavy pigment than stain. */
function meanPaint(model: WetModel, box: Box): { readonly load: number; readonly heavy: number } {
  const count = Math.min(MOST_SAMPLES, Math.max(8, Math.round(box.width / FINE)));
  // The noises as production's pixels show them; samples stand further apart.
  const brush = { ...openBrush(model, FINE, FINE, count), step: box.width / count };
  const { load, a: heavy } = brush.rows;
  let [sum, more] = [0, 0];
  for (let j = 0; j < ROWS; j++) {
    const y = ((j + 0.5) / ROWS) * box.height;
    // Rows begin at shifted places, so that no column is favoured.
    const x0 = ((j * 0.618034) % 1) * brush.step;
    sharedRows(brush, x0, y, count);
    edgeRow(brush, x0, y, count);
    loadRow(brush, { x0, y, skip: 0, count });
    for (let k = 0; k < count; k++) sum += load[k];
    if (!model.parted) continue;
    heavyRow(brush, model.parted, x0, y, count);
    for (let k = 0; k < count; k++) more += heavy[k];
  }
  return { load: sum / (ROWS * count), heavy: more / (ROWS * count) };
}
