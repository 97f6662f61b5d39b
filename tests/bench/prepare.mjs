// How long effects that simulate take to prepare, against the area of the tile: CPU s of one core, in
// a process of its own, so that the peak memory is that of the simulation.
import { fileURLToPath } from 'node:url';
import { boxOf, parseLayout } from '../../dist/index.js';
import { openSetting } from '../../dist/render/index.js';
import { measureProcess, printTable } from './measure.mjs';

const SIDES = [80, 160, 320, 640];
const own = fileURLToPath(import.meta.url);

if (process.argv[1] === own) await prepareOnce(...process.argv.slice(2));

async function prepareOnce(name, side, quality) {
  const effect = (await import(new URL(`../../dist/plugins/${name}/index.js`, import.meta.url).href)).default;
  const repeat = { layout: parseLayout('drop:1/2'), width: Number(side), height: Number(side) };
  const { setting } = openSetting(effect, { box: boxOf(repeat), seed: '1', quality });
  const before = process.cpuUsage();
  const started = performance.now();
  await effect.prepare(setting);
  const wall = performance.now() - started;
  const { user, system } = process.cpuUsage(before);
  console.log(JSON.stringify({ cpu: (user + system) / 1e6, wall: wall / 1000 }));
}

/** @param names Effects to measure; @param quick leaves the largest tile out. */
export function benchPrepare(folder, names, quick) {
  const rows = [['effect', 'quality', 'side, mm', 'CPU s', 'wall s', 'CPU s per dm2', 'peak MB']];
  for (const name of names) {
    for (const quality of ['sketch', 'finished']) {
      for (const side of quick ? SIDES.slice(0, 3) : SIDES) {
        const { megabytes, stdout } = measureProcess(folder, [own, name, String(side), quality]);
        const { cpu, wall } = JSON.parse(stdout);
        const area = (side / 100) ** 2;
        rows.push([
          name,
          quality,
          side,
          cpu.toFixed(2),
          wall.toFixed(2),
          (cpu / area).toFixed(3),
          megabytes.toFixed(0),
        ]);
      }
    }
  }
  printTable('Preparing, by the area of the tile', rows);
}
