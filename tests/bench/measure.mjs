import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const usageModule = new URL('./usage.mjs', import.meta.url).href;

/** Runs a Node program to its end: wall time and time of all cores in s, peak memory in MB, and what it printed. */
export function measureProcess(folder, args) {
  const usageFile = join(folder, 'usage.json');
  const started = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', usageModule, ...args], {
    env: { ...process.env, BENCH_USAGE: usageFile },
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  const seconds = (performance.now() - started) / 1000;
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}:\n${stdout}${stderr}`);
  return { seconds, ...JSON.parse(readFileSync(usageFile, 'utf8')), stdout };
}

/** The median of `runs` calls, by seconds. */
export function medianOf(runs, measure) {
  const results = Array.from({ length: runs }, measure).sort((a, b) => a.seconds - b.seconds);
  return results[Math.floor(runs / 2)];
}

/** ns per pixel of the fastest of `runs` calls: the one that other processes disturbed least. */
export function nanosecondsPerPixel(pixels, runs, call) {
  let best = Infinity;
  for (let run = 0; run < runs; run++) {
    const started = performance.now();
    call();
    best = Math.min(best, performance.now() - started);
  }
  return (best * 1e6) / pixels;
}

/** Prints rows of a table with aligned columns. */
export function printTable(title, rows) {
  console.log(`\n${title}`);
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => String(row[column]).length)));
  for (const row of rows)
    console.log(`  ${row.map((cell, column) => String(cell).padEnd(widths[column])).join('  ')}`);
}
