import type { PageData } from './data.ts';
import { element } from './element.ts';
import { paintCloth, screenRatio, type View } from './paint-cloth.ts';
import { packedOf } from './picture.ts';
import { ScaleBar } from './scale-bar.ts';
import { settingsList } from './settings-list.ts';
import { Sight } from './sight.ts';
import { handView, type ViewHolder } from './view-hand.ts';
import { differenceOf, fullTitle, titleOf } from './words.ts';

/** One swatch seen from near by. */
export class Pane {
  readonly root: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly #data: PageData;
  readonly #index: number;
  readonly #bar = new ScaleBar(140);
  readonly #state = element('p', { class: 'state', hidden: true }, 'Artwork without texture');
  readonly #rendered = new Sight();
  readonly #bare = new Sight();

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
    const window = element('div', { class: 'window' }, this.canvas, this.#state, this.#bar.root);
    this.root = element('figure', { class: 'pane' }, window, about);
  }

  /** False where the page has no artwork for it. */
  get hasOriginal(): boolean {
    return packedOf(this.#data, this.#index, true) !== undefined;
  }

  async open(): Promise<void> {
    await this.#rendered.open(packedOf(this.#data, this.#index, false));
    await this.#bare.open(packedOf(this.#data, this.#index, true));
  }

  close(): void {
    this.#rendered.close();
    this.#bare.close();
  }

  /** @param isBare Show the artwork without texture. */
  paint(view: View, isBare: boolean): void {
    const isOriginal = isBare && this.hasOriginal;
    this.#bar.show(view.scale);
    this.#state.hidden = !isOriginal;
    if (this.canvas.clientWidth === 0) return;
    const piece = (isOriginal ? this.#bare : this.#rendered).pieceFor(view.scale * screenRatio());
    if (piece) paintCloth(this.canvas, piece, view);
  }
}
