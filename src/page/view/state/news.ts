import type { News } from '../../words/news.ts';
import type { Api } from '../api.ts';
import type { Desk } from './desk.ts';

const AGAIN_MS = 1500;

/** Hears what the server has to tell, and goes on asking where it has gone. */
export async function hearNews(desk: Desk, api: Api): Promise<void> {
  for (;;) {
    try {
      await api.listen((news) => {
        desk.trouble('server');
        take(desk, news);
      });
      desk.trouble('server', GONE);
    } catch {
      desk.trouble('server', GONE);
    }
    await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
  }
}

const GONE = 'The program behind this page has stopped. Nothing is lost: start it again with "tenter open".';

function take(desk: Desk, news: News): void {
  switch (news.kind) {
    case 'here':
      return;
    case 'saving': {
      const { saving } = news;
      const isKnown = desk.savings.value.some(({ id }) => id === saving.id);
      desk.savings.value = isKnown
        ? desk.savings.value.map((one) => (one.id === saving.id ? saving : one))
        : [...desk.savings.value, saving];
      return;
    }
    case 'tile':
      desk.trouble(`tile ${news.tile.id}`);
      desk.tiles.value = desk.tiles.value.map((tile) => (tile.id === news.tile.id ? news.tile : tile));
      return;
    case 'tile lost':
      desk.trouble(`tile ${news.id}`, news.message);
      return;
    case 'effect':
      desk.trouble('effect');
      desk.effects.value = new Map([...desk.effects.value, [news.offered.effect.name, news.offered]]);
      return;
    case 'effect failed':
      desk.trouble('effect', news.message);
  }
}
