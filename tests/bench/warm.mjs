// What a second render costs in a process that has rendered before: threads, code and textures are there.
import { loadavg } from 'node:os';
import { Crew, openShelf, plainFrame, renderOnCrew, resolveSteps } from '../../dist/host/index.js';
import { gridOfPixels, parseLayout } from '../../dist/index.js';
import { medianOf, printTable } from './measure.mjs';

const SIDE = 1000;
const MILLIMETRES = 85;
const RUNS = 15;

export async function benchWarm(effects = ['linen-weave', 'wood-grain']) {
  const shelf = await openShelf([]);
  const crew = new Crew();
  const rows = [['effect', 'first, ms', 'later, ms', 'core ms']];
  for (const effect of effects) {
    const runs = [];
    for (let run = 0; run < RUNS; run++) runs.push(await renderOnce(shelf, crew, effect));
    let next = RUNS - 5;
    const later = medianOf(5, () => runs[next++]);
    rows.push([
      effect,
      ...[runs[0].seconds, later.seconds, later.coreSeconds].map((s) => (1000 * s).toFixed(0)),
    ]);
  }
  await crew.close();
  printTable(
    `A render of ${(SIDE * SIDE) / 1e6} megapixel in a warm process, load ${loadavg()[0].toFixed(1)}`,
    rows,
  );
}

async function renderOnce(shelf, crew, effect) {
  const grid = gridOfPixels(
    { layout: parseLayout('straight'), width: MILLIMETRES, height: MILLIMETRES },
    SIDE,
    SIDE,
  );
  const tile = plainFrame(SIDE, SIDE, '#8090a0');
  const steps = resolveSteps(shelf, [{ effect }], '1');
  const [started, before] = [performance.now(), process.cpuUsage()];
  await renderOnCrew({ grid, tile, steps, follow: 'cloth', quality: 'finished' }, { crew });
  const { user, system } = process.cpuUsage(before);
  return { seconds: (performance.now() - started) / 1000, coreSeconds: (user + system) / 1e6 };
}
