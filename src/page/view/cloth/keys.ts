import { moved, nearer } from '../../../collection/page/cloth-view.ts';
import type { View } from '../../../collection/page/paint-cloth.ts';
import type { Cloth } from './cloth.ts';
import { aimOf, glideTo } from './glide.ts';
import { viewOfWhole } from './views.ts';

/** How far an arrow key moves, px, and with Shift as a share of the window. */
const WALK = 60;
const STRIDE = 0.8;
/** How much nearer + and a double click bring. */
const STEP = 1.5;

export const KEYS_IN_WORDS =
  'Arrow keys move the cloth, with Shift by a window. Plus and minus bring it nearer and further. 0 shows a whole repeat, 1 true size.';

/** Does what a key says. @returns Whether it says anything. */
export function pressKey(cloth: Cloth, { key, shiftKey }: Pick<KeyboardEvent, 'key' | 'shiftKey'>): boolean {
  const aim = aimFor(cloth, key, shiftKey);
  if (aim) glideTo(cloth, aim);
  return aim !== undefined;
}

function aimFor(cloth: Cloth, key: string, isStride: boolean): View | undefined {
  const { width, height } = cloth.room.value;
  const from = aimOf(cloth);
  const [x, y] = isStride ? [width * STRIDE, height * STRIDE] : [WALK, WALK];
  switch (key) {
    case 'ArrowLeft':
      return moved(from, x, 0);
    case 'ArrowRight':
      return moved(from, -x, 0);
    case 'ArrowUp':
      return moved(from, 0, y);
    case 'ArrowDown':
      return moved(from, 0, -y);
    case '+':
    case '=':
      return aimAt(cloth, from.scale * STEP);
    case '-':
      return aimAt(cloth, from.scale / STEP);
    case '0':
      return viewOfWhole(cloth.repeat.value, cloth.room.value);
    case '1':
      return aimAt(cloth, cloth.trueSize.value.scale);
    default:
      return undefined;
  }
}

/** The view at another scale, its middle where it is. */
export function aimAt(cloth: Cloth, scale: number): View {
  const { width, height } = cloth.room.value;
  const from = aimOf(cloth);
  return nearer(from, scale / from.scale, { x: width / 2, y: height / 2 });
}

/** Brings a place, CSS px of the window, nearer; with Shift further off. */
export function doubleClick(cloth: Cloth, { offsetX, offsetY, shiftKey }: MouseEvent): void {
  if (cloth.hand.value) return;
  const factor = shiftKey ? 1 / STEP ** 2 : STEP ** 2;
  glideTo(cloth, nearer(aimOf(cloth), factor, { x: offsetX, y: offsetY }));
}
