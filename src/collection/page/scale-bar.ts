import { barLength } from './bar.ts';
import { element } from './element.ts';

/** A bar of true length, with its mm beside it. */
export class ScaleBar {
  readonly root: HTMLElement;
  readonly #bar = element('span', { class: 'bar', 'aria-hidden': 'true' });
  readonly #words = element('span');
  readonly #room: number;

  /** @param room The longest it may be, px. */
  constructor(room: number) {
    this.#room = room;
    this.root = element('div', { class: 'scale-bar' }, this.#bar, this.#words);
  }

  /** @param scale Screen px per mm. */
  show(scale: number): void {
    const mm = barLength(scale, this.#room);
    this.#bar.style.width = `${mm * scale}px`;
    this.#words.textContent = `${mm} mm`;
  }
}
