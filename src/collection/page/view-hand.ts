import { moved, nearer, type Point } from './cloth-view.ts';
import type { View } from './paint-cloth.ts';

/** Where a view is kept, for all windows that look at it. */
export interface ViewHolder {
  view: View;
}

const WHEEL_STEP = 0.0016;

/** Lets hands move a view: one finger or the mouse drags, two fingers or the wheel bring it nearer. */
export function handView(canvas: HTMLCanvasElement, holder: ViewHolder): void {
  const fingers = new Map<number, Point>();
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, pointOf(event));
  });
  canvas.addEventListener('pointermove', (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const after = pointOf(event);
    const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
    if (other) {
      const factor = distance(after, other) / Math.max(1, distance(before, other));
      holder.view = nearer(holder.view, factor, other);
    } else holder.view = moved(holder.view, after.x - before.x, after.y - before.y);
    fingers.set(event.pointerId, after);
  });
  for (const end of ['pointerup', 'pointercancel'] as const) {
    canvas.addEventListener(end, (event) => void fingers.delete(event.pointerId));
  }
  canvas.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      holder.view = nearer(holder.view, Math.exp(-event.deltaY * WHEEL_STEP), pointOf(event));
    },
    { passive: false },
  );
}

function pointOf({ offsetX, offsetY }: MouseEvent): Point {
  return { x: offsetX, y: offsetY };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
