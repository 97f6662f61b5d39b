import { type Signal, signal } from '@preact/signals';
import { wrapPoint } from '../../../repeat/index.ts';
import type { Stroke } from '../../words/work.ts';
import type { Cloth, ClothHand, ClothPoint } from '../cloth/cloth.ts';
import { followPlace, middleOf, type Place, WAYS } from '../veil/by-keys.ts';
import type { ResistPicture } from './resist-picture.ts';

/** What the brush is like. */
export interface Brush {
  /** mm */
  readonly width: number;
  /** 0..1 */
  readonly softness: number;
  readonly erases: boolean;
}

/** From here on a hand lays the brush's full width: a mouse, which knows no pressure, says so much. */
const FULL_PRESSURE = 0.5;
/** Points nearer together than this share of the width, or than so many px, show nothing. */
const SPACING = { share: 0.03, px: 0.5 } as const;
/** How far an arrow key goes, in widths of the brush; with Shift. */
const STRIDE = 0.5;
const STEP = 0.1;

interface UnderWay {
  /** As it was begun. */
  readonly of: Stroke;
  readonly points: number[];
  /** From where the pointer is to the box at home, mm. */
  readonly home: readonly [number, number];
}

/** The hand that paints. */
export class BrushHand implements ClothHand {
  readonly cursor = 'none';
  /** Where the brush is, mm. */
  readonly place: Signal<Place | undefined> = signal(undefined);
  /** What was done by keys, in words. */
  readonly said = signal('');
  readonly #cloth: Cloth;
  readonly #brush: Signal<Brush>;
  readonly #picture: () => ResistPicture;
  readonly #onStroke: (stroke: Stroke) => void;
  readonly #onChange: () => void;
  #stroke?: UnderWay;
  #isDownByKey = false;

  constructor(
    cloth: Cloth,
    brush: Signal<Brush>,
    picture: () => ResistPicture,
    onStroke: (stroke: Stroke) => void,
    onChange: () => void,
  ) {
    this.#cloth = cloth;
    this.#brush = brush;
    this.#picture = picture;
    this.#onStroke = onStroke;
    this.#onChange = onChange;
  }

  /** Whether it takes away now. */
  get isErasing(): boolean {
    return this.#stroke?.of.erases ?? this.#brush.peek().erases;
  }

  get isAtWork(): boolean {
    return this.#stroke !== undefined;
  }

  down(point: ClothPoint): void {
    this.cancel();
    const { width, softness, erases } = this.#brush.peek();
    const grid = this.#picture().grid;
    // Begun in the box at home, so that numbers stay small however far the cloth was moved.
    const [x, y] = wrapPoint(grid.box.lattice, point.x, point.y);
    const of = { width, softness, ...(erases || point.turned ? { erases: true } : {}), points: [] };
    this.#stroke = { of, points: [], home: [x - point.x, y - point.y] };
    this.#picture().begin(of);
    this.move(point);
  }

  move(point: ClothPoint): void {
    this.place.value = { x: point.x, y: point.y };
    if (this.#stroke) this.#grow(this.#stroke, point);
    this.#onChange();
  }

  up(): void {
    const stroke = this.#stroke;
    if (!stroke) return;
    this.#stroke = undefined;
    this.#isDownByKey = false;
    const whole = { ...stroke.of, points: stroke.points };
    this.#picture().end(whole);
    this.#onStroke(whole);
  }

  cancel(): void {
    if (!this.#stroke) return;
    this.#stroke = undefined;
    this.#isDownByKey = false;
    this.#picture().giveUp();
    this.#onChange();
  }

  hover(point: ClothPoint | undefined): void {
    if (this.#isDownByKey) return;
    this.place.value = point && { x: point.x, y: point.y };
    this.#onChange();
  }

  /** Arrows move the brush, the space bar lays a dab, Enter puts the brush down and lifts it, Escape gives a stroke up. */
  key(key: string, isShift: boolean): boolean {
    const way = WAYS[key];
    if (way) this.#walk(way, isShift);
    else if (key === ' ') this.#dab();
    else if (key === 'Enter') this.#putDown();
    else if (key === 'Escape' && this.#stroke) this.cancel();
    else return false;
    return true;
  }

  #walk([x, y]: readonly [number, number], isShift: boolean): void {
    const from = this.#here();
    const far = this.#brush.peek().width * (isShift ? STEP : STRIDE);
    const to = { x: from.x + x * far, y: from.y + y * far, pressure: FULL_PRESSURE };
    this.move(to);
    followPlace(this.#cloth, to);
    this.said.value = `The brush is at ${Math.round(to.x)}, ${Math.round(to.y)} mm.`;
  }

  #dab(): void {
    const at = this.#here();
    this.down({ ...at, pressure: FULL_PRESSURE });
    this.up();
    this.said.value = this.isErasing ? 'A dab was taken away.' : 'A dab was laid.';
  }

  #putDown(): void {
    if (this.#isDownByKey) {
      this.up();
      this.said.value = 'The brush is lifted.';
      return;
    }
    this.down({ ...this.#here(), pressure: FULL_PRESSURE });
    this.#isDownByKey = true;
    this.said.value = 'The brush is down; arrow keys draw.';
  }

  #here(): Place {
    return this.place.peek() ?? middleOf(this.#cloth);
  }

  #grow(stroke: UnderWay, point: ClothPoint): void {
    const { points, of, home } = stroke;
    const next = [
      rounded(point.x + home[0]),
      rounded(point.y + home[1]),
      rounded(Math.min(1, point.pressure / FULL_PRESSURE)),
    ];
    const spacing = Math.max(of.width * SPACING.share, SPACING.px / this.#cloth.view.peek().scale);
    const end = points.length - 3;
    const isNear = end >= 0 && (next[0] - points[end]) ** 2 + (next[1] - points[end + 1]) ** 2 < spacing ** 2;
    if (isNear && next[2] <= points[end + 2]) return;
    points.push(...next);
    this.#picture().grow(next);
  }
}

/** To a thousandth: what is kept stays short. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
