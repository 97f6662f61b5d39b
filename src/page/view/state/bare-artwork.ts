import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { LookOrder } from '../../words/look.ts';
import type { Api } from '../api.ts';
import type { Artwork } from '../mask/artwork-colours.ts';
import type { Desk } from './desk.ts';

/** Enough to touch fine lines and to see where a mask ends. */
const PIXELS = 1e6;

/** The artwork without texture, for taking its colours; fetched while a hand is there that does. */
export function bareArtwork(
  desk: Desk,
  api: Api,
  isWanted: ReadonlySignal<boolean>,
): Signal<Artwork | undefined> {
  const artwork = signal<Artwork | undefined>(undefined);
  let key = '';
  effect(() => {
    if (!isWanted.value) return;
    const { tile, ground, layout, size } = desk.work.value;
    const next = JSON.stringify([tile, desk.tile.value?.revision, ground, layout, size]);
    if (next === key) return;
    key = next;
    artwork.value = undefined;
    const density = Math.sqrt(PIXELS / (size.width * size.height));
    const order: LookOrder = {
      ...{ tile, ground, layout, size, density },
      laying: { steps: [], seed: '1' },
      resists: {},
      quality: 'finished',
    };
    api.look(order, new AbortController().signal).then(
      ({ look, pixels }) => {
        if (key !== next) return;
        artwork.value = {
          ...{ pixels, width: look.width, height: look.height, layout: look.layout, paper: '#ffffff' },
          widthMm: look.part.width,
          heightMm: look.part.height,
        };
      },
      () => {
        key = '';
      },
    );
  });
  return artwork;
}
