import { writeFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { startCollection } from '../collection/index.ts';
import { refuseTaken, writeBeside } from '../picture/beside.ts';
import { refuseInputs, requireWritable } from '../picture/index.ts';
import { parseDensity } from '../repeat/length.ts';
import { progressLine } from './progress.ts';

interface StartFlags {
  readonly out: string;
  readonly dpi?: number;
  readonly overwrite?: boolean;
}

/** Adds `tenter collect start`. */
export function addCollectStart(collect: Command): void {
  collect
    .command('start')
    .summary('write a collection file for the pictures in a folder')
    .description(
      'Writes a collection file for the pictures in a folder, with remarks that say what can be changed.',
    )
    .argument('<folder>', 'a folder of tiles')
    .option('--out <file>', 'where to write it', 'collection.json')
    .option('--dpi <density>', 'density of pictures that state none; default 300', parseDensity)
    .option('--overwrite', 'replace the file if it is there')
    .action(start);
}

async function start(folder: string, { out, dpi, overwrite = false }: StartFlags): Promise<void> {
  await refuseTaken(out, overwrite);
  await requireWritable(out);
  const line = process.stderr.isTTY ? progressLine(process.stderr) : undefined;
  const onTile = (done: number, name: string) => line?.show(done, `trying layouts on ${name}`);
  const started = await startCollection({ folder, file: out, dpi, onTile }).finally(() => line?.clear());
  const { text, pictures, unreadable } = started;
  await refuseInputs(out, pictures);
  await writeBeside(out, { overwrite }, (beside) => writeFile(beside, text));
  console.log(`${out} is written; "tenter collect plan ${out}" says what it comes to.`);
  for (const name of unreadable) console.error(`tenter: warning: ${name} cannot be read and was left out`);
}
