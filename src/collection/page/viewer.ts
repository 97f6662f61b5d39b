import type { Bare } from './bare.ts';
import { LIFE_SIZE, moved, nearer, wholeRepeat } from './cloth-view.ts';
import type { PageData } from './data.ts';
import { button, element } from './element.ts';
import type { View } from './paint-cloth.ts';
import { Pane } from './pane.ts';
import { fullTitle } from './words.ts';

const STEP = 1.5;
/** How far an arrow key moves, px. */
const WALK = 60;

/** One swatch from near by, or two side by side that move together. */
export class Viewer {
  readonly root: HTMLDialogElement;
  readonly #data: PageData;
  /** Those that can be leafed through. */
  readonly #order: () => readonly number[];
  readonly #title = element('h2', { id: 'viewer-title' });
  readonly #panes = element('div', { class: 'panes' });
  readonly #leafing: readonly HTMLButtonElement[];
  readonly #swap: HTMLButtonElement;
  readonly #bare: Bare;
  readonly #bareButton: HTMLButtonElement;
  #open: Pane[] = [];
  #shown: readonly number[] = [];
  #view: View = { left: 0, top: 0, scale: 1 };
  #isDue = false;

  constructor(data: PageData, bare: Bare, order: () => readonly number[]) {
    this.#bare = bare;
    this.#bareButton = bare.button();
    bare.onChange(() => this.#paintSoon());
    this.#data = data;
    this.#order = order;
    this.#leafing = [button('Previous', () => this.#leaf(-1)), button('Next', () => this.#leaf(1))];
    this.#swap = button('Swap sides', () => void this.show([...this.#shown].reverse(), true));
    const tools = element(
      'div',
      { class: 'tools', role: 'group', 'aria-label': 'How near' },
      button('Nearer', () => this.#step(STEP)),
      button('Further', () => this.#step(1 / STEP)),
      button('Whole repeat', () => this.#whole()),
      button('Life size', () => this.#life(), { title: 'As far as this screen has 96 px to the inch' }),
      this.#bareButton,
      ...this.#leafing,
      this.#swap,
      button('Close', () => this.root.close(), { class: 'close' }),
    );
    const hint = element('p', { class: 'hint' }, KEYS);
    this.root = element('dialog', { class: 'viewer', 'aria-labelledby': 'viewer-title' });
    this.root.append(element('header', {}, this.#title, tools), this.#panes, hint);
    this.root.addEventListener('keydown', (event) => this.#key(event));
    this.root.addEventListener('close', () => this.#clear());
    new ResizeObserver(() => this.#paintSoon()).observe(this.#panes);
  }

  get view(): View {
    return this.#view;
  }

  set view(view: View) {
    this.#view = view;
    this.#paintSoon();
  }

  /** Shows one swatch or two. @param keepsView Leave the view where it is. */
  async show(indices: readonly number[], keepsView = false): Promise<void> {
    this.#clear();
    this.#shown = indices;
    const { swatches, axes } = this.#data;
    this.#title.textContent = indices.length > 1 ? 'Side by side' : fullTitle(swatches[indices[0]], axes);
    for (const leaf of this.#leafing) leaf.hidden = indices.length > 1;
    this.#swap.hidden = indices.length < 2;
    const panes = indices.map((index, side) => new Pane(this.#data, index, this, indices[1 - side]));
    this.#open = panes;
    this.#bareButton.disabled = !panes.some(({ hasOriginal }) => hasOriginal);
    this.#panes.replaceChildren(...panes.map(({ root }) => root));
    if (!this.root.open) this.root.showModal();
    if (!keepsView) this.#whole();
    panes[0].canvas.focus();
    for (const pane of panes) await pane.open();
    this.#paintSoon();
  }

  #clear(): void {
    for (const pane of this.#open) pane.close();
    this.#open = [];
    this.#panes.replaceChildren();
  }

  #paintSoon(): void {
    if (this.#isDue) return;
    this.#isDue = true;
    requestAnimationFrame(() => {
      this.#isDue = false;
      for (const pane of this.#open) pane.paint(this.#view, this.#bare.isOn);
    });
  }

  #leaf(step: number): void {
    const order = this.#order();
    const next = order[(order.indexOf(this.#shown[0]) + step + order.length) % order.length];
    if (next !== undefined && this.#shown.length === 1) void this.show([next], true);
  }

  #step(factor: number): void {
    const { clientWidth, clientHeight } = this.#open[0].canvas;
    this.view = nearer(this.#view, factor, { x: clientWidth / 2, y: clientHeight / 2 });
  }

  #life(): void {
    this.#step(LIFE_SIZE / this.#view.scale);
  }

  /** Of the larger of two, so that both are in repeat. */
  #whole(): void {
    const { clientWidth, clientHeight } = this.#open[0].canvas;
    const cloths = this.#shown.map((index) => this.#data.swatches[index].cloth!);
    const widthMm = Math.max(...cloths.map((cloth) => cloth.widthMm));
    const heightMm = Math.max(...cloths.map((cloth) => cloth.heightMm));
    this.view = wholeRepeat(widthMm, heightMm, clientWidth, clientHeight);
  }

  #key(event: KeyboardEvent): void {
    const act = this.#keys[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  }

  readonly #keys: Readonly<Record<string, () => void>> = {
    '+': () => this.#step(STEP),
    '=': () => this.#step(STEP),
    '-': () => this.#step(1 / STEP),
    '0': () => this.#whole(),
    '1': () => this.#life(),
    o: () => this.#bare.toggle(),
    PageUp: () => this.#leaf(-1),
    PageDown: () => this.#leaf(1),
    ArrowLeft: () => this.#walk(WALK, 0),
    ArrowRight: () => this.#walk(-WALK, 0),
    ArrowUp: () => this.#walk(0, WALK),
    ArrowDown: () => this.#walk(0, -WALK),
  };

  #walk(x: number, y: number): void {
    this.view = moved(this.#view, x, y);
  }
}

const KEYS =
  'Drag to move, turn the wheel to come nearer. Keys: arrows, + and −, 0 whole repeat, 1 life size, o the artwork without texture, Page Up and Page Down, Esc.';
