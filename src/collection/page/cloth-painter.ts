import type { PageSwatch } from './data.ts';
import { paintCloth, screenRatio } from './paint-cloth.ts';
import { openPicture } from './picture.ts';
import { layPiece } from './repeat-piece.ts';

/** Paints the cards that are in sight, one after the other; the others hold no picture. */
export class ClothPainter {
  readonly #swatches: readonly PageSwatch[];
  readonly #canvases = new Map<Element, { readonly index: number; readonly canvas: HTMLCanvasElement }>();
  readonly #inSight = new Set<Element>();
  readonly #waiting = new Set<Element>();
  readonly #observer: IntersectionObserver;
  #isPainting = false;
  #scale = 1;

  constructor(swatches: readonly PageSwatch[]) {
    this.#swatches = swatches;
    this.#observer = new IntersectionObserver((entries) => this.#see(entries), { rootMargin: '300px' });
  }

  watch(place: Element, index: number, canvas: HTMLCanvasElement): void {
    this.#canvases.set(place, { index, canvas });
    this.#observer.observe(place);
  }

  /** @param scale Screen px per mm, of all cards. */
  setScale(scale: number): void {
    this.#scale = scale;
    this.repaint();
  }

  repaint(): void {
    for (const place of this.#inSight) this.#waiting.add(place);
    void this.#work();
  }

  #see(entries: readonly IntersectionObserverEntry[]): void {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) {
        this.#inSight.add(target);
        this.#waiting.add(target);
      } else {
        this.#inSight.delete(target);
        this.#waiting.delete(target);
        Object.assign(this.#canvases.get(target)!.canvas, { width: 0, height: 0 });
      }
    }
    void this.#work();
  }

  async #work(): Promise<void> {
    if (this.#isPainting) return;
    this.#isPainting = true;
    try {
      for (const place of this.#waiting) {
        this.#waiting.delete(place);
        await this.#paint(place);
      }
    } finally {
      this.#isPainting = false;
    }
  }

  async #paint(place: Element): Promise<void> {
    const { index, canvas } = this.#canvases.get(place)!;
    const { cloth } = this.#swatches[index];
    const picture = await openPicture(index);
    if (this.#inSight.has(place) && cloth && canvas.clientWidth > 0) {
      const piece = layPiece(picture, cloth, this.#scale * screenRatio());
      paintCloth(canvas, piece, { left: 0, top: 0, scale: this.#scale });
    }
    picture.close();
  }
}
