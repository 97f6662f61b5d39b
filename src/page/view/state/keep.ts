import { effect } from '@preact/signals';
import { type Api, Overtaken } from '../api.ts';
import type { Desk } from './desk.ts';

/** A change is on disk this much later at most. */
const QUIET_MS = 120;
const AGAIN_MS = 2000;

/**
 * Keeps the work on the server with every change, one after the other. What could not be kept is tried again, and
 * the person told; where another tab was first, this one goes on with a copy of its own.
 */
export function keepWork(desk: Desk, api: Api, revision: number): void {
  let kept = desk.story.value;
  let next = revision + 1;
  let id = desk.id.value;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let busy = false;

  effect(() => {
    if (desk.id.value !== id) {
      id = desk.id.value;
      kept = desk.story.value;
      next = (desk.begin.works.find((one) => one.id === id)?.revision ?? 0) + 1;
    }
    if (desk.story.value !== kept) wait(QUIET_MS);
  });
  addEventListener('pagehide', () => void keep(true));

  function wait(ms: number): void {
    clearTimeout(waiting);
    waiting = setTimeout(() => void keep(false), ms);
  }

  async function keep(isLast: boolean): Promise<void> {
    const story = desk.story.value;
    if ((busy && !isLast) || story === kept) return;
    const isUnderWay = busy;
    busy = true;
    try {
      // One that is on its way is overtaken by the last, which comes right after it.
      await api.keep({ id, revision: isLast && isUnderWay ? next + 1 : next, ...story });
      kept = story;
      next++;
      desk.trouble('keeping');
    } catch (error) {
      if (error instanceof Overtaken) {
        id = `${id.replace(/-copy.*$/, '')}-copy-${Date.now().toString(36)}`;
        next = 1;
        desk.id.value = id;
        desk.trouble('copy', 'This design is open in another tab too. Here you go on with a copy of it.');
      } else desk.trouble('keeping', `Not kept: ${(error as Error).message} It is tried again.`);
    } finally {
      busy = false;
      if (desk.story.value !== kept) wait(desk.troubles.value.has('keeping') ? AGAIN_MS : QUIET_MS);
    }
  }
}
