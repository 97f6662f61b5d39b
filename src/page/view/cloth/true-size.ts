import { LIFE_SIZE } from '../../../collection/page/cloth-view.ts';
import type { Cloth } from './cloth.ts';

/** A card of ISO/IEC 7810, format ID-1, mm. */
export const CARD = { width: 85.6, height: 53.98, corner: 3.18 };
/** CSS px per mm of screens that there may be: a wall screen seen from afar .. a small one near the eye. */
export const SCREENS = { least: 0.5, most: 16 };

const KEY = 'tenter: CSS px per mm of the screen';

/** A screen's size and fineness tell it from another. */
function keyOfScreen(): string {
  return `${KEY} ${screen.width} x ${screen.height} @ ${devicePixelRatio}`;
}

/** Takes up what a card once told of this screen. */
export function readTrueSize(cloth: Cloth): void {
  const storage = kept();
  if (!storage) return;
  const scale = Number(storage.getItem(keyOfScreen()) ?? Number.NaN);
  const isFitted = scale >= SCREENS.least && scale <= SCREENS.most;
  const known = cloth.trueSize.value;
  if (isFitted === known.isFitted && (!isFitted || scale === known.scale)) return;
  cloth.trueSize.value = { scale: isFitted ? scale : LIFE_SIZE, isFitted };
}

/** Keeps what a card tells of this screen. @param scale CSS px per mm; none to take the screen at its word again. */
export function keepTrueSize(cloth: Cloth, scale: number | undefined): void {
  if (scale === undefined) kept()?.removeItem(keyOfScreen());
  else kept()?.setItem(keyOfScreen(), String(scale));
  cloth.trueSize.value = { scale: scale ?? LIFE_SIZE, isFitted: scale !== undefined };
}

/** A browser may be told to keep nothing: it is then known until the page is closed. */
function kept(): Storage | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}
