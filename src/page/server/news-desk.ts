import type { News } from '../words/news.ts';

/** ms between signs of life. */
const PULSE_MS = 5000;
/** So many pages may listen: each tab is one. */
const MOST_LISTENERS = 64;

type Listener = (news: News) => void;

/** Where news is told, to every page that listens. */
export class NewsDesk {
  readonly #listeners = new Set<Listener>();

  tell(news: News): void {
    for (const listen of this.#listeners) listen(news);
  }

  /** Lines of JSON, one a piece of news, until the reader goes away; the first at once. */
  stream(): ReadableStream<Uint8Array> {
    const letters = new TextEncoder();
    let end = () => {};
    return new ReadableStream({
      start: (pipe) => {
        const listen: Listener = (news) => {
          try {
            pipe.enqueue(letters.encode(`${JSON.stringify(news)}\n`));
          } catch {
            end();
          }
        };
        const pulse = setInterval(() => listen({ kind: 'here' }), PULSE_MS);
        pulse.unref();
        end = () => {
          clearInterval(pulse);
          this.#listeners.delete(listen);
        };
        this.#makeRoom();
        this.#listeners.add(listen);
        listen({ kind: 'here' });
      },
      cancel: () => end(),
    });
  }

  /** The one that has listened longest is let go. */
  #makeRoom(): void {
    if (this.#listeners.size < MOST_LISTENERS) return;
    const [oldest] = this.#listeners;
    this.#listeners.delete(oldest);
  }
}
