import { element } from './element.ts';
import { ScaleBar } from './scale-bar.ts';

/** How far the slider reaches to each side: 2 to this power. */
const REACH = 3;

/** Sets the one scale of all cards, and shows it by a bar. */
export class ScaleField {
  readonly root: HTMLElement;
  readonly #bar = new ScaleBar(120);

  /** @param start Screen px per mm at the slider's middle. */
  constructor(start: number, change: (scale: number) => void) {
    const slider = element('input', {
      type: 'range',
      min: String(-REACH),
      max: String(REACH),
      step: '0.25',
      value: '0',
    });
    slider.addEventListener('input', () => {
      const scale = start * 2 ** Number(slider.value);
      this.#bar.show(scale);
      change(scale);
    });
    this.#bar.show(start);
    this.root = element(
      'div',
      { class: 'scale' },
      element('label', {}, 'Scale of all swatches ', slider),
      this.#bar.root,
    );
  }
}
