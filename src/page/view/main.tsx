import '../../collection/page/main.css';
import './fonts.css';
import { computed, signal } from '@preact/signals';
import { render } from 'preact';
import { Api } from './api.ts';
import { Cloth } from './cloth/cloth.ts';
import { Frame } from './page.tsx';
import './page.css';
import { takeKey } from './server-key.ts';
import { bareArtwork } from './state/bare-artwork.ts';
import { keepClosing } from './state/closing.ts';
import { type Page, PageContext } from './state/context.ts';
import { Desk } from './state/desk.ts';
import { keepWork } from './state/keep.ts';
import { Looking } from './state/looks.ts';
import { hearNews } from './state/news.ts';
import { SmallLooks } from './trials/small-looks.ts';

void start(document.getElementById('page')!);

async function start(place: HTMLElement): Promise<void> {
  const api = new Api(takeKey());
  try {
    const begin = await api.begin();
    const first = begin.works[0];
    const desk = new Desk(begin, first);
    const cloth = new Cloth();
    const bare = signal(false);
    const looking = new Looking(desk, cloth, api, bare);
    keepWork(desk, api, first.revision);
    void hearNews(desk, api);
    const atHand: Page['atHand'] = signal(undefined);
    const isTouching = computed(() => atHand.value !== undefined);
    const artwork = bareArtwork(desk, api, isTouching);
    const closing = keepClosing(desk, api, looking);
    const page = {
      desk,
      cloth,
      api,
      bare,
      looking,
      closing,
      small: new SmallLooks(api, () => looking.isBusy.peek() || !looking.facts.peek()),
      open: signal(undefined),
      atHand,
      unfolded: signal(first.work.laying.steps.at(-1)?.id),
      artwork,
    };
    render(
      <PageContext.Provider value={page}>
        <Frame />
      </PageContext.Provider>,
      place,
    );
  } catch (error) {
    render(
      <p class="lost">{`The page cannot begin: ${(error as Error).message} Open the address that "tenter open" prints.`}</p>,
      place,
    );
  }
}
