import type { View } from './paint-cloth.ts';

/** A CSS px is 1/96 inch where a screen is as fine as it says (CSS Values and Units 4, section 6.2). */
export const LIFE_SIZE = 96 / 25.4;

const LEAST_SCALE = 0.02;
const MOST_SCALE = 60;

/** A place of the window, px from its upper left corner. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The view after a drag of so many px. */
export function moved({ left, top, scale }: View, x: number, y: number): View {
  return { left: left - x / scale, top: top - y / scale, scale };
}

/** The view from nearer (or further): what lies under `point` stays there. */
export function nearer({ left, top, scale }: View, factor: number, { x, y }: Point): View {
  const next = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale * factor));
  return { left: left + x / scale - x / next, top: top + y / scale - y / next, scale: next };
}

/** The view that shows a repeat one and a half times in a window. */
export function wholeRepeat(widthMm: number, heightMm: number, width: number, height: number): View {
  return { left: 0, top: 0, scale: Math.min(width / widthMm, height / heightMm) / 1.5 };
}
