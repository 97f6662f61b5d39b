import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { barLength } from '../../../collection/page/bar.ts';
import { CardDialog } from './card-dialog.tsx';
import type { Cloth, Marks } from './cloth.ts';
import './cloth.css';
import { glideTo } from './glide.ts';
import { aimAt } from './keys.ts';
import { AFAR, isAt, sizeWords, viewOfWhole } from './views.ts';

/** The longest that the scale bar may be, CSS px, and as a share of the window. */
const LONGEST_BAR = 120;
const BAR_SHARE = 0.25;

interface Props {
  readonly cloth: Cloth;
  /** How soon the repeat shows, in words; said where the cloth is seen from afar. */
  readonly repeatShows?: string;
}

/** The small words at the edge of the window. */
export function ClothEdge({ cloth, repeatShows }: Props) {
  const card = useRef<HTMLDialogElement>(null);
  const { scale } = cloth.view.value;
  const { trueSize } = cloth;
  const life = trueSize.value.scale;
  const whole = viewOfWhole(cloth.repeat.value, cloth.room.value);
  const isFar = isAt(scale, life * AFAR);
  return (
    <div class="cloth-edge">
      <p class="cloth-scale">
        <ScaleBar scale={scale} longest={Math.min(LONGEST_BAR, cloth.room.value.width * BAR_SHARE)} />
        <span role="status">{sizeWords(scale, trueSize.value)}</span>
      </p>
      <fieldset class="cloth-words" aria-label="How near">
        <Word isCurrent={isAt(scale, whole.scale)} act={() => glideTo(cloth, whole)}>
          whole repeat
        </Word>
        <Word isCurrent={isAt(scale, life)} act={() => glideTo(cloth, aimAt(cloth, life))}>
          true size
        </Word>
        <Word isCurrent={isFar} act={() => glideTo(cloth, aimAt(cloth, life * AFAR))}>
          from three metres
        </Word>
      </fieldset>
      <fieldset class="cloth-words" aria-label="Lines over the cloth">
        <Mark cloth={cloth} mark="edge">
          outline of the tile
        </Mark>
        <Mark cloth={cloth} mark="seams">
          seams
        </Mark>
      </fieldset>
      <Word act={() => card.current!.showModal()}>fit to a card</Word>
      {isFar && (
        <p class="cloth-note">
          A fifth of true size: on a screen at 0.6 m it fills the eye as the cloth does at 3 m. {repeatShows}
        </p>
      )}
      <CardDialog cloth={cloth} dialog={card} />
    </div>
  );
}

interface WordProps {
  readonly act: () => void;
  /** Whether the cloth is shown so now. */
  readonly isCurrent?: boolean;
  readonly children: ComponentChildren;
}

function Word({ act, isCurrent, children }: WordProps) {
  return (
    <button type="button" class="cloth-word" aria-current={isCurrent ? 'true' : undefined} onClick={act}>
      {children}
    </button>
  );
}

interface MarkProps {
  readonly cloth: Cloth;
  readonly mark: keyof Marks;
  readonly children: ComponentChildren;
}

function Mark({ cloth: { marks }, mark, children }: MarkProps) {
  const isOn = marks.value[mark];
  const toggle = () => {
    marks.value = { ...marks.value, [mark]: !isOn };
  };
  return (
    <button type="button" class="cloth-word" aria-pressed={isOn} onClick={toggle}>
      {children}
    </button>
  );
}

/** A bar of so many mm of the cloth. */
function ScaleBar({ scale, longest }: { readonly scale: number; readonly longest: number }) {
  const mm = barLength(scale, Math.max(1, longest));
  return (
    <span class="cloth-bar-and-words">
      <span class="cloth-bar" aria-hidden="true" style={{ width: `${mm * scale}px` }} />
      {`${mm} mm`}
    </span>
  );
}
