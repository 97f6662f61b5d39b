import { useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useId } from 'preact/hooks';
import type { Cloth } from './cloth.ts';
import { CARD, keepTrueSize, SCREENS } from './true-size.ts';

/** In a narrower window, CSS px, the card stands upright. */
const UPRIGHT_BELOW = 600;
/** Arrow keys change the card by so many px of its long side, with Shift by ten times as many. */
const STEP = 0.5;

interface Props {
  readonly cloth: Cloth;
  readonly dialog: RefObject<HTMLDialogElement | null>;
}

/** Fits the outline of a card to one that is held to the screen: true size is exact from then on. */
export function CardDialog({ cloth, dialog }: Props) {
  const { scale: known, isFitted } = cloth.trueSize.value;
  const fitted = useSignal<number | undefined>(undefined);
  const scale = fitted.value ?? known;
  const title = useId();
  const close = () => dialog.current!.close();
  const keep = (told: number | undefined) => {
    keepTrueSize(cloth, told);
    close();
  };
  return (
    <dialog
      ref={dialog}
      class="cloth-card"
      aria-labelledby={title}
      onClose={() => {
        fitted.value = undefined;
      }}
    >
      <h2 id={title}>True size</h2>
      <p>
        Hold a bank card, or any card of its size (85.60 × 53.98 mm), to the screen. Drag the corner of the
        outline, or use the arrow keys, until the two are the same.
      </p>
      <CardOutline
        scale={scale}
        fit={(next) => {
          fitted.value = Math.min(SCREENS.most, Math.max(SCREENS.least, next));
        }}
      />
      <p class="cloth-card-acts">
        <button type="button" class="main" onClick={() => keep(scale)}>
          It fits
        </button>
        {isFitted && (
          <button type="button" onClick={() => keep(undefined)}>
            Forget the card
          </button>
        )}
        <button type="button" onClick={close}>
          Leave it
        </button>
      </p>
    </dialog>
  );
}

interface OutlineProps {
  /** CSS px per mm. */
  readonly scale: number;
  fit(scale: number): void;
}

function CardOutline({ scale, fit }: OutlineProps) {
  const isUpright = window.innerWidth < UPRIGHT_BELOW;
  const width = isUpright ? CARD.height : CARD.width;
  const height = isUpright ? CARD.width : CARD.height;
  const drag = ({ currentTarget, pointerId, clientX, clientY }: PointerEvent) => {
    const corner = currentTarget as HTMLElement;
    if (!corner.hasPointerCapture(pointerId)) return;
    const { left, top } = corner.parentElement!.getBoundingClientRect();
    // The nearest place on the card's diagonal.
    fit(((clientX - left) * width + (clientY - top) * height) / (width ** 2 + height ** 2));
  };
  const press = (event: KeyboardEvent) => {
    const sign = SIGNS[event.key];
    if (sign === undefined) return;
    event.preventDefault();
    fit(scale + (sign * STEP * (event.shiftKey ? 10 : 1)) / CARD.width);
  };
  const long = Math.round(scale * CARD.width * 10) / 10;
  return (
    <div
      class="cloth-card-outline"
      style={{
        width: `${width * scale}px`,
        height: `${height * scale}px`,
        borderRadius: `${CARD.corner * scale}px`,
      }}
    >
      <div
        class="cloth-card-corner"
        role="slider"
        tabIndex={0}
        aria-label="Size of the card on this screen"
        aria-valuemin={Math.round(SCREENS.least * CARD.width)}
        aria-valuemax={Math.round(SCREENS.most * CARD.width)}
        aria-valuenow={long}
        aria-valuetext={`its long side ${long} px`}
        onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
        onPointerMove={drag}
        onKeyDown={press}
      />
    </div>
  );
}

const SIGNS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };
