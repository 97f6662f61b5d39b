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
 * once somebody has made the linen. It runs before every run of ours. What was tried and did not pay stands in TRIED.md. The floor of noise costs more, for noise hardly deflates.
 *
 * @param tiles Paths of tiles with their textures, their side in px, the size in mm and how often to run each.
 */
export function benchWhole(folder, tiles, effects) {
  const recipe = join(folder, 'three-steps.json');
  writeFileSync(recipe, JSON.stringify(RECIPE));
  for (const tile of tiles) {
    const { path, side, millimetres, runs } = tile;
    const out = join(folder, 'out.png');
    const multiply = (texture) => [floor, path, texture, out, PNG_LEVEL];
    const run = (args) => besideFloor(runs, folder, args, multiply(tile.linen));
    const rows = [HEADINGS];
    const add = (work, { base, ...measured }, stages = '') =>
      rows.push([work, ...figuresOf(measured, base), stages]);
    add('floor: read, multiply by the ready linen, write', run(multiply(tile.linen)));
    add('the same with a texture of noise', run(multiply(tile.noise)));
    const size = ['--size', `${millimetres}x${millimetres}mm`];
    const lay = (what) => run([command, 'lay', what, path, ...size, '--out', out, '--overwrite', '--json']);
    for (const effect of effects) addLaid(add, effect, lay(effect));
    addLaid(add, `a recipe of ${RECIPE.steps.map(({ effect }) => effect).join(', ')}`, lay(recipe));
    add('check', run([command, 'check', path, '--layout', 'straight']));
    const megapixels = ((side * side) / 1e6).toFixed(1);
    printTable(`${side} x ${side} px (${megapixels} megapixels), PNG level ${PNG_LEVEL}`, rows);
  }
}

const HEADINGS = [
  ...['work', 'seconds', 'times the floor', 'core s', 'times the floor', 'load', 'peak MB'],
  'read / prepare / paint / write, ms',
];

/** Runs the floor before each run: on a machine with others at work, what is measured apart is not comparable. */
function besideFloor(runs, folder, args, floorArgs) {
  const bases = [];
  const measured = medianOf(runs, () => {
    bases.push(measureProcess(folder, floorArgs));
    return measureProcess(folder, args);
  });
  let next = 0;
  return { ...measured, load: loadavg()[0], base: medianOf(runs, () => bases[next++]) };
}

function figuresOf({ seconds, coreSeconds, megabytes, load }, base) {
  return [
    ...[seconds.toFixed(2), (seconds / base.seconds).toFixed(2)],
    ...[coreSeconds.toFixed(2), (coreSeconds / base.coreSeconds).toFixed(2)],
    ...[load.toFixed(1), megabytes.toFixed(0)],
  ];
}

function addLaid(add, what, run) {
  const { read, prepare, paint, write } = JSON.parse(run.stdout).milliseconds;
  add(`lay ${what}`, run, [read, prepare, paint, write].map((ms) => ms.toFixed(0)).join(' / '));
}

/** How long a command takes that lays nothing. */
export function benchStart(folder) {
  const rows = [['command', 'seconds', 'core s', 'peak MB']];
  for (const args of [['--help'], ['effects'], ['effects', 'linen-weave']]) {
    const { seconds, coreSeconds, megabytes } = medianOf(5, () => measureProcess(folder, [command, ...args]));
    rows.push([`tenter ${args.join(' ')}`, seconds.toFixed(2), coreSeconds.toFixed(2), megabytes.toFixed(0)]);
  }
  printTable(`Starting, load ${loadavg()[0].toFixed(1)}`, rows);
}
