// node tests/bench/collection.mjs [quick]: what a collection costs beside single commands, and how it grows.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { printTable } from './measure.mjs';
import { drawTile } from './tiles.mjs';

const command = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const usageModule = new URL('./usage.mjs', import.meta.url).href;
const quick = process.argv.includes('quick');
const folder = mkdtempSync(join(tmpdir(), 'tenter-collection-bench-'));
const cores = cpus().length;

/** Runs the command to its end: wall time, the share of all cores that it kept busy, and peak memory. */
function measure(args) {
  const usageFile = join(folder, 'usage.json');
  const started = performance.now();
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', usageModule, command, ...args],
    {
      cwd: folder,
      env: { ...process.env, BENCH_USAGE: usageFile },
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    },
  );
  const seconds = (performance.now() - started) / 1000;
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}:\n${stdout}${stderr}`);
  const { coreSeconds, megabytes } = JSON.parse(readFileSync(usageFile, 'utf8'));
  return { seconds, coreSeconds, busy: coreSeconds / (seconds * cores), megabytes, stdout };
}

function write(name, entry) {
  writeFileSync(join(folder, name), JSON.stringify(entry));
  return name;
}

function runOf(name, entry, ...rest) {
  const result = measure(['collect', 'run', write(`${name}.json`, entry), '--out', name, '--json', ...rest]);
  const end = JSON.parse(result.stdout.trim().split('\n').at(-1));
  rmSync(join(folder, name), { recursive: true });
  return {
    ...result,
    saved: Object.entries(end.saved)
      .map(([what, count]) => `${count} ${what}`)
      .join(', '),
  };
}

/** 12 textures in two strengths, as a designer would ask; and 24 textures that have nothing in common. */
function benchBatch() {
  const tiles = [{ picture: 'tile-2000.png', size: '169x169mm' }];
  const recipes = [
    { name: 'apron', effect: 'linen-weave', preset: 'kitchen-apron' },
    { name: 'plank', effect: 'wood-grain', preset: 'printed-plank' },
  ];
  const batch = { summary: 'Bench.', tiles, recipes };
  const rows = [['24 variants of 4 megapixels', 'seconds', 'cores busy', 'core seconds', 'peak MB', 'saved']];
  const add = (name, { seconds, busy, coreSeconds, megabytes, saved = '' }) =>
    rows.push([
      name,
      seconds.toFixed(1),
      `${(busy * 100).toFixed(0)} %`,
      coreSeconds.toFixed(1),
      megabytes.toFixed(0),
      saved,
    ]);
  const single = { seconds: 0, coreSeconds: 0, megabytes: 0 };
  for (const { effect, preset } of recipes) {
    for (let seed = 1; seed <= 12; seed++) {
      const args = [
        'lay',
        effect,
        'tile-2000.png',
        '--preset',
        preset,
        '--size',
        '169x169mm',
        '--seed',
        String(seed),
      ];
      const { seconds, coreSeconds, megabytes } = measure([...args, '--out', 'single.png', '--overwrite']);
      single.seconds += seconds;
      single.coreSeconds += coreSeconds;
      single.megabytes = Math.max(single.megabytes, megabytes);
    }
  }
  add('24 commands, one after the other', { ...single, busy: single.coreSeconds / (single.seconds * cores) });
  const seeds = runOf('seeds', { ...batch, vary: { seed: { count: 12 } } });
  add('one collection: 2 recipes x 12 seeds', seeds);
  const strengths = { ...batch, vary: { seed: { count: 6 }, opacity: [0.5, 1] } };
  add('one collection: 2 recipes x 6 seeds x 2 strengths', runOf('strengths', strengths));
  printTable(
    `${cores} cores; the batch of seeds is ${(single.seconds / seeds.seconds).toFixed(2)} times as fast`,
    rows,
  );
}

function benchGrowth(counts) {
  const rows = [
    [
      'small renders (100 x 100 px)',
      'seconds',
      'ms per render beyond the first 10',
      'core ms per render',
      'peak MB',
      'again, all there: s',
    ],
  ];
  let first;
  for (const count of counts) {
    const entry = {
      summary: 'Growth.',
      tiles: [{ picture: 'tile-100.png', size: '20x20mm' }],
      recipes: [{ effect: 'linen-weave' }],
      vary: { seed: { count } },
    };
    const name = write(`growth-${count}.json`, entry);
    const args = ['collect', 'run', name, '--out', `growth-${count}`, '--json'];
    const { seconds, coreSeconds, megabytes } = measure(args);
    const again = measure(args);
    first ??= { seconds, coreSeconds, count };
    const more = count - first.count;
    rows.push([
      count,
      seconds.toFixed(1),
      more ? ((1000 * (seconds - first.seconds)) / more).toFixed(1) : '',
      more ? ((1000 * (coreSeconds - first.coreSeconds)) / more).toFixed(1) : '',
      megabytes.toFixed(0),
      again.seconds.toFixed(2),
    ]);
    rmSync(join(folder, `growth-${count}`), { recursive: true });
  }
  printTable('How a collection grows', rows);
}

function benchMemory() {
  const entry = {
    summary: 'Memory.',
    tiles: [{ picture: 'tile-2000.png', size: '169x169mm' }],
    recipes: [{ effect: 'linen-weave' }, { effect: 'wood-grain' }],
    vary: { seed: { count: 3 }, opacity: [0.5, 1] },
  };
  const rows = [['budget', 'peak MB', 'seconds']];
  for (const budget of ['400MB', '600MB', '4GB']) {
    const { megabytes, seconds } = runOf('memory', entry, '--memory', budget);
    rows.push([budget, megabytes.toFixed(0), seconds.toFixed(1)]);
  }
  printTable('12 variants of 4 megapixels within a budget', rows);
}

try {
  mkdirSync(folder, { recursive: true });
  await drawTile(folder, 2000);
  await drawTile(folder, 100);
  benchBatch();
  benchMemory();
  benchGrowth(quick ? [10, 100] : [10, 30, 100, 300, 1000]);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
