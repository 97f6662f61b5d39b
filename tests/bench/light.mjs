// Measures what lighting a relief costs beside what linen takes to paint, in ns per pixel of one thread: processor
// time, so that other work on the machine counts little.
// Run: npm run build && node tests/bench/light.mjs
import { boxOf, neutralLayer, parseLayout } from '../../dist/index.js';
import linen from '../../dist/plugins/linen-weave/index.js';
import { DEFAULT_LIGHT, lightRelief, openLight, openSetting } from '../../dist/render/index.js';
import { printTable } from './measure.mjs';

const [WIDTH, ROWS] = [3780, 69];
const PIXELS = WIDTH * ROWS;
const rows = [['stage', 'ns per pixel']];

/** The least of several rounds. */
function nanosecondsPerPixel(pixels, rounds, work) {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    least = Math.min(least, ((user + system) * 1000) / pixels);
  }
  return least;
}

for (const dpi of [75, 300, 600]) {
  const step = 25.4 / dpi;
  for (const gloss of [0, 1]) {
    const light = openLight({ ...DEFAULT_LIGHT, gloss }, step, step);
    const length = (WIDTH + 2 * light.margin) * (ROWS + 2 * light.margin);
    const relief = Float32Array.from({ length }, (_, k) => 0.05 * Math.sin(k * 0.37));
    const shade = new Float32Array(PIXELS).fill(1);
    const spent = nanosecondsPerPixel(PIXELS, 9, () =>
      lightRelief(relief, WIDTH, ROWS, light, shade.fill(1)),
    );
    rows.push([`light at ${dpi} dpi, gloss ${gloss}, margin ${light.margin} px`, spent.toFixed(1)]);
  }
}

const box = boxOf({ layout: parseLayout('straight'), width: 320, height: 320 });
const { setting } = openSetting(linen, { box, seed: '1' });
const model = await linen.prepare(setting);
const band = { x: 0, y: 0, width: WIDTH, height: ROWS, mmPerPixelX: 25.4 / 300, mmPerPixelY: 25.4 / 300 };
const spent = nanosecondsPerPixel(PIXELS, 7, () =>
  linen.paint(model, band, neutralLayer(linen.planes, WIDTH, ROWS)),
);
rows.push(['linen-weave paints at 300 dpi', spent.toFixed(1)]);
printTable('Light on a relief', rows);
