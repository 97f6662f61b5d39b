import type { Cloth, Overlay } from '../cloth/cloth.ts';

/** An overlay that asks for the cloth to be drawn again, once until it is drawn. */
export class OverCloth {
  readonly #cloth: Cloth;
  readonly #overlay: Overlay;
  #isAsked = false;

  constructor(cloth: Cloth, draw: Overlay) {
    this.#cloth = cloth;
    this.#overlay = (context, view) => {
      this.#isAsked = false;
      draw(context, view);
    };
  }

  lay(): void {
    this.#cloth.overlays.value = [...this.#cloth.overlays.peek(), this.#overlay];
  }

  takeAway(): void {
    this.#cloth.overlays.value = this.#cloth.overlays.peek().filter((one) => one !== this.#overlay);
  }

  /** What it shows has changed. */
  drawAgain(): void {
    if (this.#isAsked) return;
    this.#isAsked = true;
    this.#cloth.overlays.value = [...this.#cloth.overlays.peek()];
  }
}
