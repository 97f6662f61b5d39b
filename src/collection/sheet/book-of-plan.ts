import { basename } from 'node:path';
import { readFailure } from '../disk/failures.ts';
import { placeInside } from '../disk/output.ts';
import type { Sidecar } from '../disk/sidecar.ts';
import { lookForItems } from '../disk/standing.ts';
import { mapSome } from '../making/each.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { originalOf } from './original.ts';
import type { Book, Swatch } from './swatch.ts';

/** Files read side by side. */
const AT_ONCE = 16;

/**
 * What is there of a plan, to be shown.
 *
 * @param items  Those of the plan that are meant.
 * @param verify Read every picture whole, instead of trusting an unchanged size and time.
 */
export async function bookOfPlan(plan: Plan, items: readonly Item[], verify = false): Promise<Book> {
  const { made } = await lookForItems(plan, items, verify);
  const swatches = await mapSome(items, AT_ONCE, (item) => swatchOf(plan.folder, item, made.get(item)));
  const { summary, folder, sources } = plan;
  return { summary, folder, sources, file: basename(plan.file), swatches };
}

async function swatchOf(folder: string, item: Item, sidecar?: Sidecar): Promise<Swatch> {
  const { name, address, labels, inputs } = item;
  const known = { name, address, labels, inputs, original: originalOf(item.tile.path, inputs) };
  if (!sidecar) {
    const failure = await readFailure(folder, item);
    return { ...known, reason: failure ? `failed: ${failure.reason}` : 'not rendered yet' };
  }
  const { picture, seams, notes } = sidecar;
  return { ...known, made: { path: await placeInside(folder, name), picture, seams, notes } };
}
