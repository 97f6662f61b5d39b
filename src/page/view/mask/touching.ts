import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import { DEFAULT_SOFTNESS, DEFAULT_TOLERANCE } from '../../../render/passes.ts';
import { parseLayout } from '../../../repeat/index.ts';
import type { Cloth } from '../cloth/cloth.ts';
import { OverCloth } from '../veil/over-cloth.ts';
import { Piece } from '../veil/piece.ts';
import { Veil } from '../veil/veil.ts';
import { type Artwork, ArtworkColours } from './artwork-colours.ts';
import { drawCross, TouchHand } from './touch-hand.ts';

/** As the host takes it where a recipe says nothing. */
export const MASK_DEFAULTS = {
  tolerance: DEFAULT_TOLERANCE,
  softness: DEFAULT_SOFTNESS,
  spare: false,
} as const;

/** Colours taken from a cloth by touching, and where they lie. */
export class Touching {
  readonly isShown = signal(true);
  readonly hand: TouchHand;
  readonly #cloth: Cloth;
  readonly #mask: ReadonlySignal<MaskRecipe | undefined>;
  readonly #artwork: ReadonlySignal<Artwork | undefined>;
  readonly #over: OverCloth;
  #opened?: { readonly artwork: Artwork; readonly colours: ArtworkColours; readonly piece: Piece };
  #isStale = true;

  constructor(
    cloth: Cloth,
    mask: ReadonlySignal<MaskRecipe | undefined>,
    artwork: ReadonlySignal<Artwork | undefined>,
    colourAt: ((x: number, y: number) => string | undefined) | undefined,
    onColour: (hex: string) => void,
  ) {
    this.#cloth = cloth;
    this.#mask = mask;
    this.#artwork = artwork;
    const veil = new Veil();
    this.#over = new OverCloth(cloth, (context, view) => {
      const piece = this.isShown.peek() ? this.#laid() : undefined;
      if (piece) veil.draw(context, view, piece);
      const cross = this.hand.cross.peek();
      if (cross) drawCross(context, view, cross);
    });
    this.hand = new TouchHand(cloth, colourAt ?? ((x, y) => this.#open()?.colours.at(x, y)), onColour, () =>
      this.#over.drawAgain(),
    );
  }

  /** Takes the hand over the cloth. @returns Takes it away. */
  begin(): () => void {
    this.#over.lay();
    this.#cloth.hand.value = this.hand;
    const end = effect(() => {
      this.#mask.value;
      this.#artwork.value;
      this.isShown.value;
      this.#isStale = true;
      this.#over.drawAgain();
    });
    return () => {
      end();
      this.#over.takeAway();
      if (this.#cloth.hand.peek() === this.hand) this.#cloth.hand.value = undefined;
    };
  }

  /** Measured when it is drawn, so that of many changes between two frames only the last is. */
  #laid(): Piece | undefined {
    const mask = this.#mask.peek();
    const opened = this.#open();
    if (!opened || !mask?.colours) return undefined;
    if (this.#isStale) {
      const { width, height } = opened.artwork;
      const covers = opened.colours.covers({ ...MASK_DEFAULTS, ...mask }, mask.colours);
      opened.piece.put(covers, { left: 0, top: 0, width, height });
      this.#isStale = false;
    }
    return opened.piece;
  }

  #open() {
    const artwork = this.#artwork.peek();
    if (!artwork) return undefined;
    if (this.#opened?.artwork !== artwork) {
      const { width, height, widthMm, heightMm } = artwork;
      const standing = {
        layout: parseLayout(artwork.layout),
        width,
        height,
        mmPerPixelX: widthMm / width,
        mmPerPixelY: heightMm / height,
      };
      this.#opened = { artwork, colours: new ArtworkColours(artwork), piece: new Piece(standing) };
    }
    return this.#opened;
  }
}
