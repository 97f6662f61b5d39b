import type { PageData } from './data.ts';
import { element } from './element.ts';
import { paintCloth, screenRatio, type View } from './paint-cloth.ts';
import { openPicture } from './picture.ts';
import { layPiece, type RepeatPiece } from './repeat-piece.ts';
import { ScaleBar } from './scale-bar.ts';
import { settingsList } from './settings-list.ts';
import { handView, type ViewHolder } from './view-hand.ts';
import { differenceOf, fullTitle, titleOf } from './words.ts';

/** One swatch seen from near by. */
export class Pane {
  readonly root: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly #data: PageData;
  readonly #index: number;
  readonly #bar = new ScaleBar(140);
  #picture?: ImageBitmap;
  #piece?: RepeatPiece & { readonly level: number };

  /** @param other The swatch beside it, whose differences are marked. */
  constructor(data: PageData, index: number, holder: ViewHolder, other?: number) {
    this.#data = data;
    this.#index = index;
    const swatch = data.swatches[index];
    this.canvas = element('canvas', {
      role: 'img',
      tabindex: '0',
      'aria-label': `${fullTitle(swatch, data.axes)}, in repeat`,
    });
    handView(this.canvas, holder);
    const { tile } = swatch.labels;
    const about = element(
      'figcaption',
      {},
      element('h3', {}, [tile, titleOf(swatch)].filter(Boolean).join(', ')),
      element('p', { class: 'differs' }, differenceOf(swatch, data.axes)),
      element('p', { class: 'facts' }, swatch.facts),
      settingsList(swatch, other === undefined ? undefined : data.swatches[other]),
    );
    const window = element('div', { class: 'window' }, this.canvas, this.#bar.root);
    this.root = element('figure', { class: 'pane' }, window, about);
  }

  async open(): Promise<void> {
    this.#picture = await openPicture(this.#index);
  }

  close(): void {
    this.#picture?.close();
    this.#picture = undefined;
    this.#piece = undefined;
  }

  paint(view: View): void {
    this.#bar.show(view.scale);
    if (!this.#picture || this.canvas.clientWidth === 0) return;
    // Halves and quarters of the picture are drawn; between two of them the last one serves.
    const level = Math.ceil(Math.log2(view.scale * screenRatio()));
    if (this.#piece?.level !== level) {
      const piece = layPiece(this.#picture, this.#data.swatches[this.#index].cloth!, 2 ** level);
      this.#piece = { ...piece, level };
    }
    paintCloth(this.canvas, this.#piece, view);
  }
}
