import { moved, nearer, type Point } from '../../../collection/page/cloth-view.ts';
import type { Cloth, ClothHand, ClothPoint } from './cloth.ts';
import { listen } from './listen.ts';

const WHEEL_STEP = 0.0016;
/** A pinch on a touch pad comes as a wheel with small steps. */
const PAD_STEP = 0.01;
/** Of a wheel that counts in lines or pages, px. */
const LINE = 33;
/** A finger that moved less than so many px may yet be the first of two. */
const RESTS = 6;

/**
 * What pointers do: one finger or the mouse drags the cloth or, where there is a hand, is led to it; two fingers and
 * the wheel bring the cloth nearer; the middle button, or any with the space bar held, drags it always.
 */
export class Pointers {
  readonly #canvas: HTMLCanvasElement;
  readonly #cloth: Cloth;
  readonly #fingers = new Map<number, Point>();
  /** The hand at work, and its finger. */
  #stroke?: { readonly hand: ClothHand; readonly finger: number };
  /** Points of a finger that may yet be the first of two. */
  #waiting?: { readonly hand: ClothHand; readonly finger: number; readonly points: PointerEvent[] };
  #isSpaceHeld = false;

  constructor(canvas: HTMLCanvasElement, cloth: Cloth) {
    this.#canvas = canvas;
    this.#cloth = cloth;
  }

  /** @returns Ends it. */
  listen(): () => void {
    const ends = [
      listen(this.#canvas, 'pointerdown', (event) => this.#down(event)),
      listen(this.#canvas, 'pointermove', (event) => this.#move(event)),
      listen(this.#canvas, 'pointerup', (event) => this.#up(event)),
      listen(this.#canvas, 'pointercancel', (event) => this.#cancel(event)),
      listen(this.#canvas, 'pointerleave', (event) => this.#leave(event)),
      listen(this.#canvas, 'wheel', (event) => this.#wheel(event), { passive: false }),
      listen(window, 'keydown', (event) => this.#space(event, true)),
      listen(window, 'keyup', (event) => this.#space(event, false)),
      listen(window, 'blur', () => this.#hold(false)),
    ];
    return () => {
      this.#giveUp();
      for (const end of ends) end();
    };
  }

  #down(event: PointerEvent): void {
    if (event.pointerType === 'mouse' && event.button > 1) return;
    // The middle button would begin to scroll.
    if (event.button === 1) event.preventDefault();
    this.#canvas.setPointerCapture(event.pointerId);
    this.#fingers.set(event.pointerId, pointOf(event));
    if (this.#fingers.size > 1) {
      this.#giveUp();
      return;
    }
    const hand = this.#cloth.hand.value;
    if (hand && event.button === 0 && !this.#isSpaceHeld) this.#begin(hand, event);
    this.#show();
  }

  #begin(hand: ClothHand, event: PointerEvent): void {
    const finger = event.pointerId;
    if (event.pointerType === 'touch') this.#waiting = { hand, finger, points: [event] };
    else {
      this.#stroke = { hand, finger };
      hand.down(this.#onCloth(event));
    }
  }

  #move(event: PointerEvent): void {
    const before = this.#fingers.get(event.pointerId);
    if (!before) {
      this.#cloth.hand.value?.hover?.(this.#onCloth(event));
      return;
    }
    const after = pointOf(event);
    const other = [...this.#fingers].find(([id]) => id !== event.pointerId)?.[1];
    this.#fingers.set(event.pointerId, after);
    const view = this.#cloth.view.value;
    if (other) {
      const factor = distance(after, other) / Math.max(1, distance(before, other));
      this.#cloth.view.value = nearer(view, factor, other);
    } else if (this.#stroke) this.#lead(this.#stroke.hand, event);
    else if (this.#waiting) this.#wait(event);
    else this.#cloth.view.value = moved(view, after.x - before.x, after.y - before.y);
  }

  /** Browsers gather what happens between two frames; a line that is drawn takes all of it. */
  #lead(hand: ClothHand, event: PointerEvent): void {
    const gathered = event.getCoalescedEvents?.() ?? [];
    for (const one of gathered.length > 0 ? gathered : [event]) hand.move(this.#onCloth(one));
  }

  #wait(event: PointerEvent): void {
    const { points } = this.#waiting!;
    points.push(event);
    if (distance(pointOf(points[0]), pointOf(event)) > RESTS) this.#start();
  }

  /** It is one finger: what it did so far is done. */
  #start(): void {
    const { hand, finger, points } = this.#waiting!;
    this.#waiting = undefined;
    this.#stroke = { hand, finger };
    const [first, ...others] = points;
    hand.down(this.#onCloth(first));
    for (const point of others) hand.move(this.#onCloth(point));
  }

  #up(event: PointerEvent): void {
    if (!this.#fingers.delete(event.pointerId)) return;
    if (this.#waiting?.finger === event.pointerId) this.#start();
    if (this.#stroke?.finger === event.pointerId) {
      const { hand } = this.#stroke;
      this.#stroke = undefined;
      hand.up();
    }
    this.#show();
  }

  #cancel(event: PointerEvent): void {
    if (this.#fingers.delete(event.pointerId)) this.#giveUp();
    this.#show();
  }

  /** A finger that is lifted leaves too; it was never over the cloth without touching it. */
  #leave({ pointerType }: PointerEvent): void {
    if (pointerType !== 'touch') this.#cloth.hand.value?.hover?.(undefined);
  }

  #giveUp(): void {
    const hand = this.#stroke?.hand;
    this.#waiting = undefined;
    this.#stroke = undefined;
    if (hand?.cancel) hand.cancel();
    else hand?.up();
  }

  #wheel(event: WheelEvent): void {
    event.preventDefault();
    const turn = event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 1 : LINE);
    const factor = Math.exp(-turn * (event.ctrlKey ? PAD_STEP : WHEEL_STEP));
    this.#cloth.view.value = nearer(this.#cloth.view.value, factor, pointOf(event));
  }

  /** The space bar belongs to what has the focus, where that is anything but the cloth. */
  #space(event: KeyboardEvent, isDown: boolean): void {
    if (event.key !== ' ') return;
    const isFree = event.target === this.#canvas || event.target === document.body;
    if (isDown && !isFree) return;
    if (isFree) event.preventDefault();
    this.#hold(isDown);
  }

  #hold(isHeld: boolean): void {
    this.#isSpaceHeld = isHeld;
    this.#show();
  }

  /** Says by the cursor what a press will do. */
  #show(): void {
    const { style } = this.#canvas;
    const hand = this.#cloth.hand.peek();
    if (hand && !this.#isSpaceHeld && (this.#stroke || this.#fingers.size === 0)) style.cursor = hand.cursor;
    else style.cursor = this.#fingers.size > 0 ? 'grabbing' : 'grab';
  }

  /** To be called where the hand changed. */
  showHand(): void {
    this.#show();
  }

  #onCloth(event: PointerEvent): ClothPoint {
    const { left, top, scale } = this.#cloth.view.value;
    const { x, y } = pointOf(event, this.#canvas);
    return { x: left + x / scale, y: top + y / scale, pressure: pressureOf(event) };
  }
}

/** A mouse knows none, and some touch screens neither: they say 0 or, while pressed, 0.5. */
function pressureOf({ pointerType, pressure }: PointerEvent): number {
  return pointerType === 'mouse' ? 0.5 : pressure || 0.5;
}

/** @param canvas Given for events that were gathered: they know no place within it. */
function pointOf(event: MouseEvent, canvas?: HTMLCanvasElement): Point {
  if (!canvas) return { x: event.offsetX, y: event.offsetY };
  const { left, top } = canvas.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
