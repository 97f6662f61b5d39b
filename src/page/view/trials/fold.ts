import { useEffect, useState } from 'preact/hooks';
import type { Trial } from '../../words/work.ts';
import { wantedLook } from '../cloth/wanted-look.ts';
import { usePage } from '../state/context.ts';
import { pictureOf } from '../state/looks.ts';
import { smallOrder } from './small-looks.ts';

/** One trial folded over the cloth, to be held against what is laid. */
export function useFold(): { folded: string | undefined; toggle: (trial: Trial) => void } {
  const { desk, cloth, api } = usePage();
  const [trial, fold] = useState<Trial | undefined>(undefined);
  const isThere = trial !== undefined && desk.work.value.trials.some(({ id }) => id === trial.id);
  useEffect(() => {
    cloth.folded.value = undefined;
    if (!trial || !isThere) return;
    const stop = new AbortController();
    const { density } = wantedLook(
      cloth.view.peek(),
      cloth.room.peek(),
      cloth.repeat.peek(),
      devicePixelRatio,
    );
    const order = { ...smallOrder(desk.work.peek(), trial.laying, 1), density, quality: 'finished' as const };
    api
      .look(order, stop.signal)
      .then(({ look, pixels }) => {
        cloth.folded.value = { period: { look, picture: pictureOf(look, pixels) }, at: 0.5 };
      })
      .catch((error) => {
        if (!stop.signal.aborted) desk.trouble('fold', `${trial.name} cannot be drawn: ${error.message}`);
      });
    return () => {
      stop.abort();
      desk.trouble('fold');
      cloth.folded.value = undefined;
    };
  }, [trial, isThere]);
  return {
    folded: isThere ? trial.id : undefined,
    toggle: (next) => fold(next.id === trial?.id && isThere ? undefined : next),
  };
}
