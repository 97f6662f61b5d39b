// Measures the figures of src/render/pace.ts: processor time of preparing and painting each built-in effect with
// its defaults, one thread, so that other work on the machine counts little.
// Run: npm run build && node tests/bench/pace.mjs
import { openShelf, plainFrame, renderOnCrew, resolveSteps } from '../../dist/host/index.js';
import { gridOfPixels, parseLayout } from '../../dist/index.js';

const shelf = await openShelf([]);
const layout = parseLayout('straight');

/** Processor time in ns of one render; what hiring the thread costs is in all of them alike. */
async function nanoseconds(effect, millimetres, side, quality) {
  const grid = gridOfPixels({ layout, width: millimetres, height: millimetres }, side, side);
  const steps = resolveSteps(shelf, [{ effect }], '1');
  const tile = plainFrame(side, side, '#8090a0');
  const before = process.cpuUsage();
  await renderOnCrew({ grid, tile, steps, follow: 'cloth', quality }, { workers: 1 });
  const { user, system } = process.cpuUsage(before);
  return (user + system) * 1000;
}

const chosen = process.argv.slice(2);
for (const effect of chosen.length > 0 ? chosen : shelf.effects.keys()) {
  const row = {};
  for (const quality of ['finished', 'sketch']) {
    // At the same size in mm, more pixels cost painting only; at the same pixels, more mm cost preparing.
    const few = await nanoseconds(effect, 200, 400, quality);
    const many = await nanoseconds(effect, 200, 1200, quality);
    const large = await nanoseconds(effect, 400, 400, quality);
    const paint = (many - few) / (1200 ** 2 - 400 ** 2);
    const perSquareMm = Math.max(0, (large - few) / (400 ** 2 - 200 ** 2));
    row[quality] = { paint: Math.round(paint), prepare: Math.round(perSquareMm) };
  }
  console.log(effect, JSON.stringify(row));
}
