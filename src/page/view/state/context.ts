import type { ReadonlySignal, Signal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Closing } from '../../words/news.ts';
import type { Api } from '../api.ts';
import type { Cloth } from '../cloth/cloth.ts';
import type { Artwork } from '../mask/artwork-colours.ts';
import type { Way } from '../ticket/placed.ts';
import type { SmallLooks } from '../trials/small-looks.ts';
import type { Desk } from './desk.ts';
import type { Looking } from './looks.ts';

/** What all parts of the page are handed. */
export interface Page {
  readonly desk: Desk;
  readonly cloth: Cloth;
  readonly api: Api;
  readonly small: SmallLooks;
  readonly looking: Looking;
  /** Whether the artwork closes, and how soon its repeat shows. */
  readonly closing: ReadonlySignal<Closing | undefined>;
  /** True while the artwork is shown without texture. */
  readonly bare: Signal<boolean>;
  /** The step whose sentences are shown. */
  readonly unfolded: Signal<string | undefined>;
  /** The step whose place on the cloth is being shown by hand. */
  readonly atHand: Signal<{ readonly step: string; readonly way: Way } | undefined>;
  /** The bare artwork, while its colours are touched. */
  readonly artwork: ReadonlySignal<Artwork | undefined>;
  /** Which question lies open over the page. */
  readonly open: Signal<'save' | 'picture' | 'keys' | undefined>;
}

export const PageContext = createContext<Page | undefined>(undefined);

export function usePage(): Page {
  return useContext(PageContext)!;
}
