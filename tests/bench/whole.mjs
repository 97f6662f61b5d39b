// Whole commands, file to file, beside what a general-purpose pipeline takes to multiply a picture that is ready.
import { writeFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PNG_LEVEL } from '../../dist/host/index.js';
import { measureProcess, medianOf, printTable } from './measure.mjs';

const command = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const floor = fileURLToPath(new URL('./floor.mjs', import.meta.url));

/** Three steps as a designer lays them: a wash that thins the paint, what is woven, and its wear. */
const RECIPE = {
  summary: 'A salted wash on worn linen.',
  steps: [{ effect: 'salt-bloom' }, { effect: 'linen-weave' }, { effect: 'dry-brush' }],
};

/**
 * The floor is our own linen, made ready and multiplied by a general library: what a designer would do instead,
 * once somebody has made the linen. The floor of noise costs more, for noise hardly deflates.
 *
 * @param tiles Paths of tiles with their textures, their side in px, the size in mm and how often to run each.
 */
export function benchWhole(folder, tiles, effects) {
  const recipe = join(folder, 'three-steps.json');
  writeFileSync(recipe, JSON.stringify(RECIPE));
  for (const tile of tiles) {
    const { path, side, millimetres, runs } = tile;
    const out = join(folder, 'out.png');
    const run = (args) => medianOf(runs, () => measureProcess(folder, args));
    const multiply = (texture) => run([floor, path, texture, out, PNG_LEVEL]);
    const base = multiply(tile.linen);
    const rows = [['work', 'seconds', 'times the floor', 'peak MB', 'read / prepare / paint / write, ms']];
    const add = (work, { seconds, megabytes }, stages = '') =>
      rows.push([
        work,
        seconds.toFixed(2),
        (seconds / base.seconds).toFixed(2),
        megabytes.toFixed(0),
        stages,
      ]);
    add('floor: read, multiply by the ready linen, write', base);
    add('the same with a texture of noise', multiply(tile.noise));
    const size = ['--size', `${millimetres}x${millimetres}mm`];
    const lay = (what) => run([command, 'lay', what, path, ...size, '--out', out, '--overwrite', '--json']);
    for (const effect of effects) addLaid(add, effect, lay(effect));
    addLaid(add, `a recipe of ${RECIPE.steps.map(({ effect }) => effect).join(', ')}`, lay(recipe));
    add('check', run([command, 'check', path, '--layout', 'straight']));
    const load = loadavg()[0].toFixed(1);
    printTable(
      `${side} x ${side} px (${((side * side) / 1e6).toFixed(1)} megapixels), PNG level ${PNG_LEVEL}, load ${load}`,
      rows,
    );
  }
}

function addLaid(add, what, run) {
  const { read, prepare, paint, write } = JSON.parse(run.stdout).milliseconds;
  add(`lay ${what}`, run, [read, prepare, paint, write].map((ms) => ms.toFixed(0)).join(' / '));
}

/** How long a command takes that lays nothing. */
export function benchStart(folder) {
  const rows = [['command', 'seconds', 'peak MB']];
  for (const args of [['--help'], ['effects'], ['effects', 'linen-weave']]) {
    const { seconds, megabytes } = medianOf(5, () => measureProcess(folder, [command, ...args]));
    rows.push([`tenter ${args.join(' ')}`, seconds.toFixed(2), megabytes.toFixed(0)]);
  }
  printTable('Starting', rows);
}
