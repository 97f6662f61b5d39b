import type { View } from '../../../collection/page/paint-cloth.ts';
import type { Cloth } from './cloth.ts';

const LASTS = 160;

/** Where a cloth glides to. */
const aims = new WeakMap<Cloth, View>();

/** The view that a cloth has, or will have once it has come to rest. */
export function aimOf(cloth: Cloth): View {
  return aims.get(cloth) ?? cloth.view.value;
}

/** Brings the cloth to a view: in a moment, or at once where the person wants no motion. Any other move ends it. */
export function glideTo(cloth: Cloth, aim: View): void {
  if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
    aims.delete(cloth);
    cloth.view.value = aim;
    return;
  }
  const from = cloth.view.value;
  let last = from;
  let start: number | undefined;
  aims.set(cloth, aim);
  const step = (now: number) => {
    if (aims.get(cloth) !== aim) return;
    start ??= now;
    const share = (now - start) / LASTS;
    const isOver = share >= 1;
    if (cloth.view.value !== last || isOver) aims.delete(cloth);
    if (cloth.view.value === last) cloth.view.value = last = isOver ? aim : viewBetween(from, aim, share);
    if (!isOver) requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
}

/** Between two views: what lies under the point that both share stays under it. */
export function viewBetween(from: View, to: View, share: number): View {
  const eased = share * (2 - share);
  const scale = from.scale * (to.scale / from.scale) ** eased;
  const isZoom = Math.abs(to.scale / from.scale - 1) > 1e-6;
  const way = isZoom ? (1 / scale - 1 / from.scale) / (1 / to.scale - 1 / from.scale) : eased;
  return {
    left: from.left + (to.left - from.left) * way,
    top: from.top + (to.top - from.top) * way,
    scale,
  };
}
