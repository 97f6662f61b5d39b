import { effect, type Signal, signal } from '@preact/signals';
import type { Closing } from '../../words/news.ts';
import type { Api } from '../api.ts';
import type { Desk } from './desk.ts';
import type { Looking } from './looks.ts';

/** Changes that follow each other faster are not looked at one by one. */
const QUIET_MS = 300;

/** Whether the artwork closes over the layout, as soon as that is known; nothing for a texture alone. */
export function keepClosing(desk: Desk, api: Api, looking: Looking): Signal<Closing | undefined> {
  const closing = signal<Closing | undefined>(undefined);
  let key = '';
  let waiting: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const { tile, layout, size } = desk.work.value;
    // A large picture is first shown, then looked at.
    const isSeen = looking.facts.value !== undefined;
    const next = JSON.stringify([tile, desk.tile.value?.revision, layout, size, isSeen]);
    if (next === key) return;
    key = next;
    closing.value = undefined;
    clearTimeout(waiting);
    if (!tile || !isSeen) return;
    waiting = setTimeout(() => {
      api.check({ tile, layout, size }).then(
        (answer) => {
          if (key === next) closing.value = answer;
        },
        // The look of the same picture tells what is wrong with it.
        () => {},
      );
    }, QUIET_MS);
  });
  return closing;
}
