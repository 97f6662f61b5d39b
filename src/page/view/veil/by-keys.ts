import type { Cloth } from '../cloth/cloth.ts';

/** Of the plane, mm. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** What keys move stays so many px within the window. */
const MARGIN = 24;

/** Where arrow keys go. */
export const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The middle of what is seen. */
export function middleOf(cloth: Cloth): Place {
  const { left, top, scale } = cloth.view.peek();
  const { width, height } = cloth.room.peek();
  return { x: left + width / 2 / scale, y: top + height / 2 / scale };
}

/** Moves the cloth where a place, mm, would leave the window. */
export function followPlace(cloth: Cloth, { x, y }: Place): void {
  const view = cloth.view.peek();
  const { width, height } = cloth.room.peek();
  const margin = MARGIN / view.scale;
  const left = Math.min(x - margin, Math.max(view.left, x + margin - width / view.scale));
  const top = Math.min(y - margin, Math.max(view.top, y + margin - height / view.scale));
  if (left !== view.left || top !== view.top) cloth.view.value = { ...view, left, top };
}
