import type { PageData } from './data.ts';
import { button, element } from './element.ts';
import { type Sieve, valuesOf } from './sieve.ts';

/** The form that says which swatches are shown. */
export class SieveForm {
  readonly root: HTMLElement;
  readonly #boxes = new Map<string, Map<string, HTMLInputElement>>();
  readonly #favouritesOnly = checkbox();
  readonly #renderedOnly = checkbox();
  readonly #change: () => void;

  constructor(data: PageData, change: () => void) {
    this.#change = change;
    const fields = data.axes.map((axis) => this.#axisField(data, axis));
    const shown = element('fieldset', {}, element('legend', {}, 'show'));
    const choices = element('div', { class: 'values' }, labelled(this.#favouritesOnly, 'favourites only'));
    if (data.swatches.some(({ cloth }) => !cloth))
      choices.append(labelled(this.#renderedOnly, 'without empty ones'));
    shown.append(choices);
    const form = element(
      'form',
      {},
      ...fields,
      shown,
      button('Show all', () => this.#reset()),
    );
    form.addEventListener('change', change);
    form.addEventListener('submit', (event) => event.preventDefault());
    this.root = element(
      'details',
      { class: 'sieve', open: true },
      element('summary', {}, 'Choose what is shown'),
      form,
    );
    if (matchMedia('(max-width: 640px)').matches) this.root.removeAttribute('open');
  }

  get sieve(): Sieve {
    const values = [...this.#boxes].map(([axis, boxes]) => {
      const chosen = [...boxes].filter(([, { checked }]) => checked).map(([value]) => value);
      return [axis, new Set(chosen)] as const;
    });
    return {
      values: new Map(values),
      favouritesOnly: this.#favouritesOnly.checked,
      renderedOnly: this.#renderedOnly.checked,
    };
  }

  #axisField(data: PageData, axis: string): HTMLElement {
    const boxes = new Map<string, HTMLInputElement>();
    const values = element('div', { class: 'values' });
    for (const [value, number] of valuesOf(data, axis)) {
      const box = checkbox();
      boxes.set(value, box);
      values.append(labelled(box, value || 'without', String(number)));
    }
    this.#boxes.set(axis, boxes);
    return element('fieldset', {}, element('legend', {}, axis), values);
  }

  #reset(): void {
    for (const box of [...this.#boxes.values()].flatMap((boxes) => [...boxes.values()])) box.checked = false;
    this.#favouritesOnly.checked = this.#renderedOnly.checked = false;
    this.#change();
  }
}

function checkbox(): HTMLInputElement {
  return element('input', { type: 'checkbox' });
}

function labelled(box: HTMLInputElement, words: string, number?: string): HTMLElement {
  const counted =
    number === undefined ? undefined : element('span', { class: 'number', 'aria-hidden': 'true' }, number);
  return element('label', {}, box, element('span', {}, words), counted);
}
