import type { PageData, PageSwatch } from './data.ts';
import { button, element } from './element.ts';
import { settingsList } from './settings-list.ts';
import { differenceOf, fullTitle, SEAM_WORDS, titleOf } from './words.ts';

/** What a card lets its reader do. */
export interface CardActs {
  look(index: number): void;
  favour(index: number): void;
  compare(index: number): void;
}

/** A swatch with its caption and buttons. */
export class Card {
  readonly root: HTMLElement;
  readonly canvas?: HTMLCanvasElement;
  /** Where the keyboard stands on this card. */
  readonly handle: HTMLElement;
  readonly #favourite: HTMLButtonElement;
  readonly #compare?: HTMLButtonElement;

  constructor(data: PageData, index: number, acts: CardActs) {
    const swatch = data.swatches[index];
    const name = fullTitle(swatch, data.axes);
    const title = titleOf(swatch);
    const differs = differenceOf(swatch, data.axes);
    const seamWords = SEAM_WORDS[swatch.seams?.grade ?? 'closes'];
    this.#favourite = toggle('Favourite', name, () => acts.favour(index));
    if (swatch.cloth) {
      this.canvas = element('canvas', { 'aria-hidden': 'true' });
      this.handle = button('', () => acts.look(index), {
        class: 'cloth',
        'aria-label': `Look closely at ${name}`,
      });
      this.handle.append(this.canvas);
      this.#compare = toggle('Compare', name, () => acts.compare(index));
    } else {
      this.handle = element(
        'div',
        { class: 'cloth empty', tabindex: '0' },
        element('p', {}, swatch.reason ?? ''),
      );
    }
    this.root = element(
      'article',
      { class: 'card', 'data-index': String(index), 'aria-label': name },
      this.handle,
      element('h3', {}, title),
      differs === '' ? undefined : element('p', { class: 'differs' }, differs),
      seamWords === '' ? undefined : element('p', { class: 'open' }, seamWords),
      element('div', { class: 'tools' }, this.#favourite, this.#compare),
      detailsOf(swatch),
    );
  }

  show(isFavourite: boolean, isCompared: boolean): void {
    this.#favourite.setAttribute('aria-pressed', String(isFavourite));
    this.#compare?.setAttribute('aria-pressed', String(isCompared));
    this.root.classList.toggle('favourite', isFavourite);
  }
}

function toggle(words: string, name: string, act: () => void): HTMLButtonElement {
  return button(words, act, { class: 'toggle', 'aria-pressed': 'false', 'aria-label': `${words}: ${name}` });
}

/** Filled when it is opened: a page may hold thousands. */
function detailsOf(swatch: PageSwatch): HTMLElement {
  const details = element('details', {}, element('summary', {}, 'Settings'));
  details.addEventListener('toggle', () => {
    if (details.childElementCount === 1) details.append(settingsList(swatch));
  });
  return details;
}
