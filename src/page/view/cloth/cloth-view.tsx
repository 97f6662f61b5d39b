import { useEffect, useId, useRef } from 'preact/hooks';
import { formatSize } from '../../../repeat/index.ts';
import type { Cloth } from './cloth.ts';
import './cloth.css';
import { FoldHandle } from './fold-handle.tsx';
import { hangCloth } from './hang-cloth.ts';
import { KEYS_IN_WORDS } from './keys.ts';
import { sizeWords } from './views.ts';

interface Props {
  readonly cloth: Cloth;
  /** What is shown, for those who do not see it, e.g. `Birds on linen`. */
  readonly name?: string;
}

/** The cloth in its window: it fills its place. */
export function ClothView({ cloth, name = 'The cloth' }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const keys = useId();
  useEffect(() => hangCloth(canvas.current!, cloth), [cloth]);
  const { layout, ...size } = cloth.repeat.value;
  const large = sizeWords(cloth.view.value.scale, cloth.trueSize.value);
  return (
    <div class="cloth">
      {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: screen readers leave the arrow keys to an application, which they keep from a picture. */}
      <canvas
        ref={canvas}
        class="cloth-window"
        role="application"
        aria-roledescription="cloth"
        aria-label={`${name}, in repeat: ${formatSize(size)}, ${layout.replace(':', ' ')}, ${large}`}
        aria-describedby={keys}
        tabIndex={0}
      />
      <p id={keys} hidden>
        {KEYS_IN_WORDS}
      </p>
      <FoldHandle cloth={cloth} />
    </div>
  );
}
