import { button, element } from './element.ts';
import { count } from './words.ts';

/** What is in the tray at the foot of the page. */
export interface TrayContent {
  readonly favourites: number;
  readonly isKept: boolean;
  /** Titles of those to be compared. */
  readonly compared: readonly string[];
}

export interface TrayActs {
  list(): void;
  clear(): void;
  compare(): void;
  release(): void;
}

/** Favourites and the pair to compare, always at hand. */
export class Tray {
  readonly root: HTMLElement;
  readonly #favourites = element('span', { role: 'status' });
  readonly #warning = element('p', { class: 'hint' });
  readonly #pair = element('span', { role: 'status', class: 'pair' });
  readonly #list: HTMLButtonElement;
  readonly #clear: HTMLButtonElement;
  readonly #compare: HTMLButtonElement;
  readonly #release: HTMLButtonElement;

  constructor(acts: TrayActs) {
    this.#list = button('Copy the list', acts.list, { class: 'main' });
    this.#clear = button('Unmark all', acts.clear);
    this.#compare = button('Side by side', acts.compare, { class: 'main' });
    this.#release = button('Put back', acts.release);
    this.root = element(
      'footer',
      { class: 'tray' },
      element('div', {}, this.#favourites, this.#list, this.#clear),
      element('div', {}, this.#pair, this.#compare, this.#release),
      this.#warning,
    );
  }

  show({ favourites, isKept, compared }: TrayContent): void {
    this.#favourites.textContent = count(favourites, 'favourite');
    this.#list.disabled = this.#clear.disabled = favourites === 0;
    this.#pair.textContent =
      compared.length === 0 ? '' : `Compare ${compared[0]} with ${compared[1] ?? '...'}`;
    this.#compare.hidden = compared.length === 0;
    this.#release.hidden = compared.length === 0;
    this.#compare.disabled = compared.length < 2;
    this.#warning.hidden = isKept;
    this.#warning.textContent = isKept
      ? ''
      : 'This browser keeps nothing for this page: copy the list before you close it.';
  }
}
