import { moved, wholeRepeat } from '../../../collection/page/cloth-view.ts';
import type { View } from '../../../collection/page/paint-cloth.ts';
import { boxOf, trimNumber } from '../../../repeat/index.ts';
import { type ClothRepeat, type Room, repeatOf, type TrueSize } from './cloth.ts';

/** The distances, m, at which a wall is looked at and at which a screen usually is. */
const FROM_AFAR = 3;
const FROM_SCREEN = 0.6;
/** Of true size: what fills the same angle from a screen's distance as the cloth does from afar. */
export const AFAR = FROM_SCREEN / FROM_AFAR;
/** Scales that differ less than this are the same. */
const SAME = 0.005;

/** The view that shows one and a half repeats, reflected ones unfolded. */
export function viewOfWhole(repeat: ClothRepeat, room: Room): View {
  const { width, height } = boxOf(repeatOf(repeat));
  return wholeRepeat(width, height, Math.max(1, room.width), Math.max(1, room.height));
}

/** The view in a window of another size: what stood in its middle stays there. */
export function recentred(view: View, before: Room, after: Room): View {
  return moved(view, (after.width - before.width) / 2, (after.height - before.height) / 2);
}

/** Whether two scales look the same. */
export function isAt(scale: number, other: number): boolean {
  return Math.abs(scale / other - 1) < SAME;
}

/** How large the cloth is shown, e.g. `1/4 of true size`. */
export function sizeWords(scale: number, { scale: life, isFitted }: TrueSize): string {
  const words = shareWords(scale / life);
  return isFitted ? words : `about ${words}`;
}

function shareWords(share: number): string {
  if (isAt(share, 1)) return '1:1 true size';
  if (share < 1) return `1/${shortNumber(1 / share)} of true size`;
  return `${shortNumber(share)} × true size`;
}

function shortNumber(value: number): string {
  return trimNumber(value, value < 9.95 ? 1 : 0);
}
