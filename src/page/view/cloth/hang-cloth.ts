import { effect } from '@preact/signals';
import type { Cloth, Room } from './cloth.ts';
import { doubleClick, pressKey } from './keys.ts';
import { listen } from './listen.ts';
import { Painter } from './painter.ts';
import { Pointers } from './pointers.ts';
import { readTrueSize } from './true-size.ts';
import { recentred, viewOfWhole } from './views.ts';

/** Hangs a cloth into a canvas: it is drawn whenever it changes, and moved by hands and keys. @returns Takes it down. */
export function hangCloth(canvas: HTMLCanvasElement, cloth: Cloth): () => void {
  const frame = new Frame(() => painter.paint(canvas, cloth));
  const painter = new Painter();
  const pointers = new Pointers(canvas, cloth);
  const sizes = new ResizeObserver(() => {
    resize(cloth, { width: canvas.clientWidth, height: canvas.clientHeight });
    // A canvas that is fitted anew is empty until it is drawn.
    frame.draw();
  });
  sizes.observe(canvas);
  readTrueSize(cloth);
  const ends = [
    pointers.listen(),
    effect(() => {
      for (const part of drawnOf(cloth)) void part.value;
      frame.ask();
    }),
    effect(() => {
      void cloth.hand.value;
      pointers.showHand();
    }),
    listen(canvas, 'keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (pressKey(cloth, event)) event.preventDefault();
    }),
    listen(canvas, 'dblclick', (event) => doubleClick(cloth, event)),
    // Another screen, or another zoom of the browser.
    listen(window, 'resize', () => {
      readTrueSize(cloth);
      frame.ask();
    }),
    () => sizes.disconnect(),
    () => frame.end(),
  ];
  return () => {
    for (const end of ends) end();
  };
}

/** All that a drawing depends on. */
function drawnOf({ view, room, period, part, folded, overlays, repeat, marks }: Cloth) {
  return [view, room, period, part, folded, overlays, repeat, marks];
}

/** The first room shows a whole repeat, where nobody chose a view before. */
function resize(cloth: Cloth, room: Room): void {
  const before = cloth.room.value;
  if (room.width === before.width && room.height === before.height) return;
  if (room.width === 0 || room.height === 0) return;
  const isFirst = before.width === 0;
  const { left, top, scale } = cloth.view.value;
  const isUntouched = left === 0 && top === 0 && scale === 1;
  if (!isFirst) cloth.view.value = recentred(cloth.view.value, before, room);
  else if (isUntouched) cloth.view.value = viewOfWhole(cloth.repeat.value, room);
  cloth.room.value = room;
}

/** Draws at most once a frame, and only where it was asked to. */
class Frame {
  readonly #draw: () => void;
  #number?: number;

  constructor(draw: () => void) {
    this.#draw = draw;
  }

  ask(): void {
    this.#number ??= requestAnimationFrame(() => this.draw());
  }

  draw(): void {
    this.end();
    this.#draw();
  }

  end(): void {
    if (this.#number !== undefined) cancelAnimationFrame(this.#number);
    this.#number = undefined;
  }
}
