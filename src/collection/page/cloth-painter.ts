import { paintCloth, screenRatio } from './paint-cloth.ts';
import { openPicture, type Packed } from './picture.ts';
import { layPiece } from './repeat-piece.ts';

interface Painted {
  readonly canvas: HTMLCanvasElement;
  /** What is to be seen on it now. */
  readonly picture: () => Packed | undefined;
}

/** Paints the cards that are in sight, one after the other; the others hold no picture. */
export class ClothPainter {
  readonly #canvases = new Map<Element, Painted>();
  readonly #inSight = new Set<Element>();
  readonly #waiting = new Set<Element>();
  readonly #observer: IntersectionObserver;
  #isPainting = false;
  #scale = 1;

  constructor() {
    this.#observer = new IntersectionObserver((entries) => this.#see(entries), { rootMargin: '300px' });
  }

  /** @param picture Asked whenever the canvas is painted. */
  watch(place: Element, canvas: HTMLCanvasElement, picture: () => Packed | undefined): void {
    this.#canvases.set(place, { canvas, picture });
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
    const { canvas, picture } = this.#canvases.get(place)!;
    const packed = picture();
    if (!packed) return;
    const opened = await openPicture(packed);
    if (this.#inSight.has(place) && canvas.clientWidth > 0) {
      const piece = layPiece(opened, packed.cloth, this.#scale * screenRatio());
      paintCloth(canvas, piece, { left: 0, top: 0, scale: this.#scale });
    }
    opened.close();
  }
}
