import { button } from './element.ts';

/** Whether the artwork is seen without its texture: one switch for the whole page, wherever it is thrown. */
export class Bare {
  readonly #buttons: HTMLButtonElement[] = [];
  readonly #hearers: (() => void)[] = [];
  #isOn = false;

  get isOn(): boolean {
    return this.#isOn;
  }

  toggle(): void {
    this.#isOn = !this.#isOn;
    for (const one of this.#buttons) one.setAttribute('aria-pressed', String(this.#isOn));
    for (const hear of this.#hearers) hear();
  }

  onChange(hear: () => void): void {
    this.#hearers.push(hear);
  }

  /** A button that throws it; there may be several. */
  button(): HTMLButtonElement {
    const made = button('Without texture', () => this.toggle(), {
      'aria-pressed': String(this.#isOn),
      title: 'The artwork as it is: same place, same scale (key: o)',
    });
    this.#buttons.push(made);
    return made;
  }
}
