import { lookForItems } from '../disk/standing.ts';
import type { Item } from '../plan/item.ts';
import { orderForWork } from '../plan/order.ts';
import type { Plan } from '../plan/plan.ts';
import { pause } from './pause.ts';
import { RoomWait } from './room-wait.ts';
import type { RunResult, RunSettings } from './run-settings.ts';
import { Workshop } from './workshop.ts';

/** How long to wait, in ms, before looking again at what another run has in hand. */
const LOOK_AGAIN_MS = 400;

/**
 * Makes all items that are not there. What fails is tried again where that can help and never stops the
 * rest. Several runs may work on one folder.
 *
 * @throws Fault (output) where the output folder cannot be written at all.
 */
export async function runItems(
  plan: Plan,
  items: readonly Item[],
  settings: RunSettings,
): Promise<RunResult> {
  const workshop = new Workshop(plan, settings);
  try {
    await workshop.open();
    const { made, missing } = await lookForItems(plan, items, settings.verify);
    workshop.begin(missing, made.size);
    await makeAll(workshop, orderForWork(missing), settings);
    return workshop.result();
  } finally {
    await workshop.close();
  }
}

/** Where the disk is full, waits for room for a while. */
async function makeAll(
  workshop: Workshop,
  missing: readonly Item[],
  { signal, roomSeconds }: RunSettings,
): Promise<void> {
  const room = new RoomWait(workshop, signal, roomSeconds);
  let rest = await makeSome(workshop, missing, signal);
  while (workshop.isFull && (await room.wait(`${rest.length} renders wait`))) {
    const before = rest.length;
    rest = await makeSome(workshop, rest, signal);
    if (rest.length < before) room.found();
  }
}

/** @returns What is left to do where the work was stopped. */
async function makeSome(workshop: Workshop, items: readonly Item[], signal?: AbortSignal): Promise<Item[]> {
  // The next stands last, for what is taken from the front of a hundred thousand moves all others.
  const waiting = [...items].reverse();
  const sorted = { alone: [] as Item[], theirs: [] as Item[], left: [] as Item[] };
  const busy = new Set<Promise<void>>();
  const start = (item: Item, isAlone: boolean): boolean => {
    const admitted = workshop.means.admit(item, busy.size, waiting.length, isAlone);
    if (!admitted) return false;
    const work = workshop.attempt(item, isAlone, admitted).then((outcome) => {
      busy.delete(work);
      if (outcome !== 'done') sorted[outcome].push(item);
    });
    busy.add(work);
    return true;
  };
  while (waiting.length > 0 && !workshop.isStopped) {
    const next = nextOf(waiting, workshop);
    if (start(waiting[next], false)) waiting.splice(next, 1);
    else if (busy.size > 0) await Promise.race(busy);
    else await workshop.refuse(waiting.splice(next, 1)[0]);
  }
  await Promise.all(busy);
  while (sorted.alone.length > 0 && !workshop.isStopped) {
    const item = sorted.alone.shift()!;
    if (!start(item, true)) await workshop.refuse(item);
    await Promise.all(busy);
  }
  if (!workshop.isStopped && sorted.theirs.length > 0) {
    await pause(LOOK_AGAIN_MS, signal);
    return makeSome(workshop, sorted.theirs, signal);
  }
  return [...waiting.reverse(), ...sorted.alone, ...sorted.theirs, ...sorted.left];
}

/** So far ahead is looked for an item that need not wait for another's texture; their layers must be kept meanwhile. */
const LOOK_AHEAD = 16;

/** @param waiting The next one last. */
function nextOf(waiting: readonly Item[], { means }: Workshop): number {
  const free = waiting.slice(-LOOK_AHEAD).findLastIndex((item) => !means.isPromised(item));
  return free < 0 ? waiting.length - 1 : Math.max(0, waiting.length - LOOK_AHEAD) + free;
}
