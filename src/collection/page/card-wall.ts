import { Card, type CardActs } from './card.ts';
import { ClothPainter } from './cloth-painter.ts';
import type { PageData } from './data.ts';
import { element } from './element.ts';
import { originalFigure } from './original-figure.ts';
import { type Packed, packedOf } from './picture.ts';
import { count } from './words.ts';

interface Section {
  readonly root: HTMLElement;
  readonly number: HTMLElement;
  readonly indices: number[];
}

/** All cards, tile by tile. */
export class CardWall {
  readonly root = element('main', { id: 'wall' });
  readonly painter: ClothPainter;
  readonly #data: PageData;
  #isBare = false;
  readonly #cards: readonly Card[];
  readonly #sections: readonly Section[];

  constructor(data: PageData, acts: CardActs) {
    this.painter = new ClothPainter();
    this.#data = data;
    this.#cards = data.swatches.map((_, index) => new Card(data, index, acts));
    this.#sections = this.#lay(data);
    this.root.addEventListener('keydown', (event) => this.#key(event, acts));
    for (const [index, card] of this.#cards.entries()) {
      if (card.canvas) this.painter.watch(card.root, card.canvas, () => this.#pictureOf(index));
    }
  }

  /** Shows the artwork without texture on all cards, or the renders again. */
  bare(isBare: boolean): void {
    this.#isBare = isBare;
    this.root.classList.toggle('bare', isBare);
    this.painter.repaint();
  }

  /** Of a card whose artwork is not at hand the render stays. */
  #pictureOf(index: number): Packed | undefined {
    return packedOf(this.#data, index, this.#isBare) ?? packedOf(this.#data, index, false);
  }

  /** Those in sight, in their order. */
  get visible(): number[] {
    return this.#cards.flatMap(({ root }, index) => (root.hidden ? [] : [index]));
  }

  /** Leaves standing what `lets` lets through. */
  sieve(lets: (index: number) => boolean): void {
    for (const { root, number, indices } of this.#sections) {
      let shown = 0;
      for (const index of indices) {
        this.#cards[index].root.hidden = !lets(index);
        if (!this.#cards[index].root.hidden) shown++;
      }
      root.hidden = shown === 0;
      number.textContent =
        shown === indices.length
          ? count(shown, 'swatch', 'swatches')
          : `${shown} of ${indices.length} swatches`;
    }
  }

  mark(isFavourite: (index: number) => boolean, isCompared: (index: number) => boolean): void {
    for (const [index, card] of this.#cards.entries()) card.show(isFavourite(index), isCompared(index));
  }

  #lay(data: PageData): Section[] {
    const sections = new Map<string, Section & { readonly cards: HTMLElement }>();
    let last: number | undefined;
    for (const [index, { labels, facts, original }] of data.swatches.entries()) {
      const tile = labels.tile ?? '';
      const section = sections.get(tile) ?? this.#begin(tile || 'Without a record', facts);
      sections.set(tile, section);
      section.indices.push(index);
      if (original !== undefined && original !== last) section.cards.append(this.#original(index));
      last = original;
      section.cards.append(this.#cards[index].root);
    }
    return [...sections.values()];
  }

  /** The artwork that this swatch and those after it were made from. */
  #original(index: number): HTMLElement {
    const { root, canvas } = originalFigure(this.#data, index);
    if (canvas) this.painter.watch(root, canvas, () => packedOf(this.#data, index, true));
    return root;
  }

  #begin(title: string, facts: string) {
    const number = element('span');
    const cards = element('div', { class: 'cards' });
    const about = element('p', { class: 'facts' }, facts === '' ? '' : `${facts}, `, number);
    const root = element('section', {}, element('h2', {}, title), about, cards);
    this.root.append(root);
    return { root, number, cards, indices: [] as number[] };
  }

  /** Arrow keys go from card to card; f marks, c takes it to compare. */
  #key(event: KeyboardEvent, acts: CardActs): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const index = this.#cards.findIndex(({ handle }) => handle === event.target);
    if (index < 0) return;
    const step = { ArrowRight: 1, ArrowLeft: -1, ArrowDown: this.#columns(), ArrowUp: -this.#columns() }[
      event.key
    ];
    if (step !== undefined) {
      const order = this.visible;
      const next = order[order.indexOf(index) + step];
      if (next !== undefined) this.#cards[next].handle.focus();
      event.preventDefault();
    } else if (event.key === 'f') acts.favour(index);
    else if (event.key === 'c') acts.compare(index);
  }

  #columns(): number {
    const cards = this.#sections.find(({ root }) => !root.hidden)?.root.querySelector('.cards');
    return cards ? getComputedStyle(cards).gridTemplateColumns.split(' ').length : 1;
  }
}
