import { type Signal, signal } from '@preact/signals';
import type { View } from '../../../collection/page/paint-cloth.ts';
import type { Cloth, ClothHand, ClothPoint } from '../cloth/cloth.ts';
import { followPlace, middleOf, type Place, WAYS } from '../veil/by-keys.ts';

/** How far an arrow key moves the cross, CSS px; with Shift. */
const STRIDE = 24;
const STEP = 2;
/** A finger or mouse that moved further than so many px was not touching a colour. */
const RESTS = 6;

/** The hand that takes colours by touching the cloth. */
export class TouchHand implements ClothHand {
  readonly cursor = 'crosshair';
  /** Where the cross stands that keys move, mm; none before they do. */
  readonly cross: Signal<Place | undefined> = signal(undefined);
  /** What was done, in words. */
  readonly said = signal('');
  /** `#rrggbb` that the pointer or the cross is over. */
  readonly under: Signal<string | undefined> = signal(undefined);
  readonly #cloth: Cloth;
  readonly #colourAt: (x: number, y: number) => string | undefined;
  readonly #onColour: (hex: string) => void;
  readonly #onChange: () => void;
  #down?: ClothPoint;

  constructor(
    cloth: Cloth,
    colourAt: (x: number, y: number) => string | undefined,
    onColour: (hex: string) => void,
    onChange: () => void,
  ) {
    this.#cloth = cloth;
    this.#colourAt = colourAt;
    this.#onColour = onColour;
    this.#onChange = onChange;
  }

  down(point: ClothPoint): void {
    this.#down = point;
    this.under.value = this.#colourAt(point.x, point.y);
  }

  move({ x, y }: ClothPoint): void {
    const from = this.#down;
    if (from && Math.hypot(x - from.x, y - from.y) * this.#cloth.view.peek().scale > RESTS) this.cancel();
  }

  up(): void {
    const at = this.#down;
    this.#down = undefined;
    if (at) this.#take(at.x, at.y);
  }

  cancel(): void {
    this.#down = undefined;
  }

  hover(point: ClothPoint | undefined): void {
    this.under.value = point && this.#colourAt(point.x, point.y);
  }

  /** Arrows move the cross, Enter or the space bar takes the colour under it. */
  key(key: string, isShift: boolean): boolean {
    const way = WAYS[key];
    if (way) this.#walk(way, isShift);
    else if (key === 'Enter' || key === ' ') {
      const { x, y } = this.#here();
      this.#take(x, y);
    } else return false;
    return true;
  }

  #take(x: number, y: number): void {
    const hex = this.#colourAt(x, y);
    if (!hex) return;
    this.#onColour(hex);
    this.said.value = `${hex} was touched.`;
  }

  #walk([x, y]: readonly [number, number], isShift: boolean): void {
    const { scale } = this.#cloth.view.peek();
    const from = this.#here();
    const far = (isShift ? STEP : STRIDE) / scale;
    const to = { x: from.x + x * far, y: from.y + y * far };
    this.cross.value = to;
    this.under.value = this.#colourAt(to.x, to.y);
    this.said.value = `Over ${this.under.peek() ?? 'nothing'}.`;
    followPlace(this.#cloth, to);
    this.#onChange();
  }

  #here(): Place {
    return this.cross.peek() ?? middleOf(this.#cloth);
  }
}

/** Draws the cross that keys move, pale beside dark. */
export function drawCross(context: CanvasRenderingContext2D, { left, top, scale }: View, place: Place): void {
  const [x, y] = [(place.x - left) * scale, (place.y - top) * scale];
  const style = getComputedStyle(document.documentElement);
  for (const [colour, line] of [
    ['--card', 4],
    ['--ink', 1.5],
  ] as const) {
    context.strokeStyle = style.getPropertyValue(colour) || 'black';
    context.lineWidth = line;
    context.beginPath();
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ]) {
      context.moveTo(x + 5 * dx, y + 5 * dy);
      context.lineTo(x + 16 * dx, y + 16 * dy);
    }
    context.stroke();
  }
}
