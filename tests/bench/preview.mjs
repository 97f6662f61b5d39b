// A first preview of an effect in a warm process: prepare and paint 1000 x 1000 px on a warm crew.
import { Crew, openShelf, plainFrame, renderOnCrew, resolveSteps } from '../../dist/host/index.js';
import { gridOfPixels, parseLayout } from '../../dist/index.js';
import { printTable } from './measure.mjs';

const SIDE = 1000;
/** A piece at 300 dpi as it will be printed, and a whole tile as a sketch. */
const VIEWS = [
  { millimetres: 85, quality: 'finished' },
  { millimetres: 320, quality: 'sketch' },
];

/** The warm process has rendered something else before; the effect itself is cold. */
export async function benchPreview(effects) {
  const shelf = await openShelf();
  const crew = new Crew();
  const rows = [['effect', 'tile', 'quality', 'first, ms', 'second, other seed, ms']];
  for (const effect of effects)
    for (const view of VIEWS) rows.push([effect, ...(await previewTwice(shelf, crew, effect, view))]);
  await crew.close();
  printTable(`Preview of ${SIDE} x ${SIDE} px`, rows);
}

async function previewTwice(shelf, crew, effect, { millimetres, quality }) {
  const repeat = { layout: parseLayout('straight'), width: millimetres, height: millimetres };
  const grid = gridOfPixels(repeat, SIDE, SIDE);
  const times = [];
  for (const seed of ['1', '2']) {
    const steps = resolveSteps(shelf, [{ effect }], seed);
    const tile = plainFrame(SIDE, SIDE, '#ffffff');
    const started = performance.now();
    await renderOnCrew({ grid, tile, steps, follow: 'cloth', quality }, { crew });
    times.push((performance.now() - started).toFixed(0));
  }
  return [`${millimetres} mm`, quality, ...times];
}
