import type { Cloth } from './cloth.ts';

/** Of the window: an arrow key, and with Shift or by Page Up and Page Down. */
const STEP = 0.01;
const STRIDE = 0.1;

/** The edge of the cloth that is folded over the other: dragged, or moved by keys. */
export function FoldHandle({ cloth }: { readonly cloth: Cloth }) {
  const folded = cloth.folded.value;
  if (!folded) return null;
  const percent = Math.round(folded.at * 100);
  return (
    <div
      class="cloth-fold"
      role="slider"
      tabIndex={0}
      aria-label="Fold"
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={percent}
      aria-valuetext={`${percent} % of the window`}
      style={{ '--at': `${folded.at * 100}%` }}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={(event) => drag(cloth, event)}
      onKeyDown={(event) => press(cloth, event)}
    >
      <span class="cloth-fold-word" aria-hidden="true">
        fold
      </span>
    </div>
  );
}

function drag(cloth: Cloth, { currentTarget, pointerId, clientX }: PointerEvent): void {
  const handle = currentTarget as HTMLElement;
  if (!handle.hasPointerCapture(pointerId)) return;
  const { left, width } = handle.parentElement!.getBoundingClientRect();
  foldTo(cloth, (clientX - left) / width);
}

function press(cloth: Cloth, event: KeyboardEvent): void {
  const at = cloth.folded.value?.at ?? 0;
  const step = event.shiftKey ? STRIDE : STEP;
  const to: Readonly<Record<string, number>> = {
    ArrowLeft: at - step,
    ArrowDown: at - step,
    ArrowRight: at + step,
    ArrowUp: at + step,
    PageDown: at - STRIDE,
    PageUp: at + STRIDE,
    Home: 0,
    End: 1,
  };
  if (!(event.key in to) || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  foldTo(cloth, to[event.key]);
}

function foldTo(cloth: Cloth, at: number): void {
  const folded = cloth.folded.value;
  if (folded) cloth.folded.value = { ...folded, at: Math.min(1, Math.max(0, at)) };
}
