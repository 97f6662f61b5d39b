// Whole commands, file to file, beside the general-purpose pipeline of the same run.
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PNG_LEVEL } from '../../dist/host/index.js';
import { measureProcess, medianOf, printTable } from './measure.mjs';

const command = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const floor = fileURLToPath(new URL('./floor.mjs', import.meta.url));

/** @param tiles Paths of tiles with their side in px, the size in mm and how often to run each. */
export function benchWhole(folder, tiles, effects) {
  for (const { path, texture, side, millimetres, runs } of tiles) {
    const out = join(folder, 'out.png');
    const base = medianOf(runs, () => measureProcess(folder, [floor, path, texture, out, PNG_LEVEL]));
    const rows = [['work', 'seconds', 'times the floor', 'peak MB', 'read / prepare / paint / write, ms']];
    rows.push([
      'floor: read, multiply, write',
      base.seconds.toFixed(2),
      '1.00',
      base.megabytes.toFixed(0),
      '',
    ]);
    for (const effect of effects) {
      const args = [command, 'lay', effect, path, '--size', `${millimetres}x${millimetres}mm`];
      const run = medianOf(runs, () =>
        measureProcess(folder, [...args, '--out', out, '--overwrite', '--json']),
      );
      const { read, prepare, paint, write } = JSON.parse(run.stdout).milliseconds;
      const stages = [read, prepare, paint, write].map((ms) => ms.toFixed(0)).join(' / ');
      rows.push([
        `lay ${effect}`,
        run.seconds.toFixed(2),
        (run.seconds / base.seconds).toFixed(2),
        run.megabytes.toFixed(0),
        stages,
      ]);
    }
    printTable(
      `${side} x ${side} px (${((side * side) / 1e6).toFixed(1)} megapixels), PNG level ${PNG_LEVEL}`,
      rows,
    );
  }
}
