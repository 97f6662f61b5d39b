import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { screenRatio } from '../../../collection/page/paint-cloth.ts';
import type { Resist, Stroke } from '../../words/work.ts';
import type { Cloth } from '../cloth/cloth.ts';
import { OverCloth } from '../veil/over-cloth.ts';
import { Veil } from '../veil/veil.ts';
import { type Brush, BrushHand } from './brush-hand.ts';
import { ResistPicture } from './resist-picture.ts';
import { drawRing } from './ring.ts';

/** The view stands still for so many ms before the resist is drawn finer. */
const STILL = 200;

/** A brush over a cloth: the hand, the resist that it shows and the ring around it. */
export class Painting {
  readonly brush: Signal<Brush> = signal({ width: 12, softness: 0.5, erases: false });
  readonly isShown = signal(true);
  /** Whether the brush is in hand; else a drag moves the cloth. */
  readonly isInHand = signal(true);
  readonly hand: BrushHand;
  readonly #cloth: Cloth;
  readonly #resist: ReadonlySignal<Resist>;
  readonly #over: OverCloth;
  #picture: ResistPicture;
  #level: number;
  #key = '';

  constructor(cloth: Cloth, resist: ReadonlySignal<Resist>, onStroke: (stroke: Stroke) => void) {
    this.#cloth = cloth;
    this.#resist = resist;
    this.#level = this.#wanted();
    this.#picture = this.#anew();
    const veil = new Veil();
    this.#over = new OverCloth(cloth, (context, view) => {
      this.#picture.settle();
      if (this.isShown.peek()) veil.draw(context, view, this.#picture.piece);
      const place = this.hand.place.peek();
      const brush = { ...this.brush.peek(), erases: this.hand.isErasing };
      if (place && this.isInHand.peek()) drawRing(context, view, place, brush);
    });
    this.hand = new BrushHand(
      cloth,
      this.brush,
      () => this.#picture,
      onStroke,
      () => this.#over.drawAgain(),
    );
  }

  /** Takes the brush over the cloth. @returns Lays it aside. */
  begin(): () => void {
    this.#over.lay();
    let wait: ReturnType<typeof setTimeout> | undefined;
    const ends = [
      effect(() => this.#show(this.#resist.value, this.#cloth.repeat.value)),
      effect(() => {
        this.#cloth.view.value;
        clearTimeout(wait);
        wait = setTimeout(() => this.#refine(), STILL);
      }),
      effect(() => {
        this.brush.value;
        this.isShown.value;
        this.#cloth.hand.value = this.isInHand.value ? this.hand : undefined;
        this.#over.drawAgain();
      }),
    ];
    return () => {
      clearTimeout(wait);
      for (const end of ends) end();
      this.hand.cancel();
      this.#over.takeAway();
      if (this.#cloth.hand.peek() === this.hand) this.#cloth.hand.value = undefined;
    };
  }

  #show(resist: Resist, repeat: Cloth['repeat']['value']): void {
    const key = `${repeat.width} ${repeat.height} ${repeat.layout}`;
    if (key !== this.#key) {
      this.hand.cancel();
      this.#picture = this.#anew();
    }
    if (!this.hand.isAtWork) this.#picture.show(resist);
    this.#over.drawAgain();
  }

  #refine(): void {
    const level = this.#wanted();
    if (level === this.#level || this.hand.isAtWork) return;
    this.#level = level;
    this.#picture = this.#anew();
    this.#picture.show(this.#resist.peek());
    this.#over.drawAgain();
  }

  #anew(): ResistPicture {
    const repeat = this.#cloth.repeat.peek();
    this.#key = `${repeat.width} ${repeat.height} ${repeat.layout}`;
    return new ResistPicture(repeat, 2 ** this.#level);
  }

  /** Screen px per mm as a power of two: between two of them the last one serves. */
  #wanted(): number {
    return Math.ceil(Math.log2(this.#cloth.view.peek().scale * screenRatio()));
  }
}
