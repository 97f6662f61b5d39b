import type { AnyEffect } from '../effect.ts';
import type { AnyLayer } from '../layer.ts';
import { type BenchOptions, openBench } from './bench.ts';
import type { CopyAnswer, CopyOrder, RunCopy } from './copy.ts';
import { Crashed, Failed, Refused } from './failed.ts';
import type { Drawn, Surrounding } from './surrounding.ts';
import { type PinMore, pinSurroundings } from './surroundings.ts';

/** Loads the effect among the surroundings asked for and carries the order out. */
export async function carryOutCopy(
  load: () => Promise<AnyEffect>,
  { trials, view }: CopyOrder,
  elsewhere: readonly Surrounding[],
  options: Pick<BenchOptions, 'onTrying'> & { readonly pinMore?: PinMore } = {},
): Promise<CopyAnswer> {
  const drawn = new Map<string, Drawn>();
  const restore = pinSurroundings(elsewhere, (found) => void drawn.set(found.name, found), options.pinMore);
  try {
    const bench = openBench(await load(), options);
    let layer: AnyLayer | undefined;
    for (const trial of trials) {
      try {
        layer = bench.paint(await bench.prepare(trial), view);
      } catch (error) {
        // What crashes before the one that counts is for another check to tell.
        const isBefore = error instanceof Crashed && trial !== trials.at(-1);
        if (!(error instanceof Refused) && !isBefore) throw error;
        layer = undefined;
      }
    }
    return { layer, drawn: [...drawn.values()] };
  } catch (error) {
    if (error instanceof Failed) return { failure: error.failure, drawn: [...drawn.values()] };
    throw error;
  } finally {
    restore();
  }
}

/**
 * Copies in this very thread, for tests and browsers, where nothing else can be had.
 *
 * @param load Imports the module as one that was never imported, such as by a query string of that number.
 */
export function importedCopies(load: (copy: number) => Promise<AnyEffect>, pinMore?: PinMore): RunCopy {
  let count = 0;
  return (order, elsewhere) => carryOutCopy(() => load(++count), order, elsewhere, { pinMore });
}
