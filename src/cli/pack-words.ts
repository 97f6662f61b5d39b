import type { Packed, Parcel } from '../pack/index.ts';
import { layerWords, layoutWords, pixelWords, profileWords } from '../pack/index.ts';
import { formatSize } from '../repeat/length.ts';
import { EXIT, exitCodeOf } from './exit-codes.ts';
import { formatBytes } from './figures.ts';
import { row } from './row.ts';

/** Says what a parcel came to. */
export function printParcel({ path, isNew, facts }: Parcel): void {
  console.log(path);
  if (!isNew || !facts) {
    row('there', 'already, from the same inputs');
    return;
  }
  const { repeat, print, seams, card, layers, files } = facts;
  row('repeat', `${formatSize({ width: repeat.widthMm, height: repeat.heightMm })}, ${layoutWords(facts)}`);
  row('print', `${pixelWords(facts)}; ${profileWords(print)}`);
  if (card) row('screens', `${card.screens}, by the shade card "${card.name}"`);
  row('seams', seams.summary);
  if (layers) row('layers', layerWords(layers));
  for (const caution of facts.cautions.slice(0, -1)) row('careful', caution);
  row(
    'packed',
    `${files.length + 1} files, ${formatBytes(files.reduce((sum, { bytes }) => sum + bytes, 0))}`,
  );
}

/** Says what could not be packed, and sets the exit code. */
export function finishPacking({ made, failed }: Packed, json = false): void {
  if (json)
    console.log(
      JSON.stringify(
        {
          parcels: made.map(({ path, isNew, facts }) => ({ path, isNew, facts })),
          failed: failed.map(({ name, fault }) => ({ name, message: fault.message, ...fault.toJSON() })),
        },
        null,
        2,
      ),
    );
  else {
    for (const { name, fault } of failed) console.error(`tenter: ${name} was not packed: ${fault.message}`);
    if (made.length + failed.length > 1) {
      const isNew = made.filter((parcel) => parcel.isNew).length;
      console.log(`${isNew} packed, ${made.length - isNew} there already, ${failed.length} failed`);
    }
  }
  if (failed.length > 0) process.exitCode = made.length > 0 ? EXIT.partly : exitCodeOf(failed[0].fault.kind);
}
