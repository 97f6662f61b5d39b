// A first preview of an effect in a warm process: prepare and paint 1000 x 1000 px on a warm crew.
import { Crew, openShelf, plainFrame, renderTile, resolveSteps } from '../../dist/host/index.js';
import { gridOfPixels, parseLayout } from '../../dist/index.js';
import { printTable } from './measure.mjs';

const SIDE = 1000;
const MILLIMETRES = 85;

/** The warm process has rendered something else before; the effect itself is cold. */
export async function benchPreview(effects) {
  const shelf = await openShelf();
  const crew = new Crew();
  const grid = gridOfPixels(
    { layout: parseLayout('straight'), width: MILLIMETRES, height: MILLIMETRES },
    SIDE,
    SIDE,
  );
  const rows = [['effect', 'first, ms', 'second, other seed, ms']];
  for (const effect of effects) {
    const times = [];
    for (const seed of ['1', '2']) {
      const steps = resolveSteps(shelf, [{ effect }], seed);
      const started = performance.now();
      await renderTile({ grid, tile: plainFrame(SIDE, SIDE, '#ffffff'), steps, follow: 'cloth' }, { crew });
      times.push((performance.now() - started).toFixed(0));
    }
    rows.push([effect, ...times]);
  }
  await crew.close();
  printTable(`Preview of ${SIDE} x ${SIDE} px`, rows);
}
