import { mapSome } from '../making/each.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { placeInside } from './output.ts';
import { type Sidecar, standingOf } from './sidecar.ts';

/** Files looked at side by side: enough to keep a disk or a network busy. */
const AT_ONCE = 16;

/** Which items of a plan are there already, by whoever made them. */
export interface Standings {
  readonly made: ReadonlyMap<Item, Sidecar>;
  readonly missing: readonly Item[];
}

/**
 * Looks for the renders of a plan.
 *
 * @param verify Read every picture whole, instead of trusting an unchanged size and time.
 */
export async function lookForItems(
  { folder }: Pick<Plan, 'folder'>,
  items: readonly Item[],
  verify = false,
): Promise<Standings> {
  const made = new Map<Item, Sidecar>();
  const standings = await mapSome(items, AT_ONCE, async (item) =>
    standingOf(await placeInside(folder, item.name), item.address, verify),
  );
  standings.forEach((standing, index) => {
    if (standing.kind === 'made') made.set(items[index], standing.sidecar);
  });
  return { made, missing: items.filter((item) => !made.has(item)) };
}
