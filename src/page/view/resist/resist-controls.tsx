import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { BRUSH_WIDTH } from '../../resist/index.ts';
import type { Resist, Stroke } from '../../words/work.ts';
import type { Cloth } from '../cloth/cloth.ts';
import { Painting } from './painting.ts';

export interface ResistControlsProps {
  readonly cloth: Cloth;
  /** As it is painted so far; undone, redone and cleared by the page. */
  readonly resist: ReadonlySignal<Resist>;
  /** A stroke is done. */
  readonly onStroke: (stroke: Stroke) => void;
  readonly onClear: () => void;
}

const EDGES = [
  [0, 'crisp edged'],
  [0.5, 'soft edged'],
  [1, 'soft from its middle on'],
] as const;

/** The brush as a sentence. As long as it stands on the page the brush is over the cloth. */
export function ResistControls({ cloth, resist, onStroke, onClear }: ResistControlsProps) {
  const painting = useMemo(() => new Painting(cloth, resist, onStroke), [cloth, resist, onStroke]);
  useEffect(() => painting.begin(), [painting]);
  const { brush, isShown, isInHand, hand } = painting;
  const { width, softness, erases } = brush.value;
  const widen = (value: number) => {
    if (value >= BRUSH_WIDTH.least && value <= BRUSH_WIDTH.most)
      brush.value = { ...brush.peek(), width: value };
  };
  return (
    <div class="resist">
      <p>
        A brush{' '}
        <input
          type="number"
          aria-label="Width of the brush, mm"
          min={BRUSH_WIDTH.least}
          max={BRUSH_WIDTH.most}
          step="any"
          value={width}
          onInput={(event) => widen(event.currentTarget.valueAsNumber)}
          onKeyDown={(event) => {
            const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
            if (!way) return;
            event.preventDefault();
            widen(Math.max(0.5, Math.round((width + way * (event.shiftKey ? 10 : 1)) * 10) / 10));
          }}
        />{' '}
        mm wide,{' '}
        <select
          aria-label="Edge of the brush"
          value={softness}
          onChange={(event) => {
            brush.value = { ...brush.peek(), softness: Number(event.currentTarget.value) };
          }}
        >
          {EDGES.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
        ,{' '}
        <select
          aria-label="What the brush does"
          value={erases ? 'takes' : 'lays'}
          onChange={(event) => {
            brush.value = { ...brush.peek(), erases: event.currentTarget.value === 'takes' };
          }}
        >
          <option value="lays">laying resist</option>
          <option value="takes">taking it away</option>
        </select>
        .
      </p>
      <p>
        <button type="button" onClick={() => (isInHand.value = !isInHand.value)}>
          {isInHand.value ? 'Lay the brush aside' : 'Take the brush up'}
        </button>{' '}
        <button type="button" onClick={() => (isShown.value = !isShown.value)}>
          {isShown.value ? 'Hide it' : 'Show it'}
        </button>{' '}
        <button type="button" disabled={resist.value.strokes.length === 0} onClick={onClear}>
          Clear
        </button>
      </p>
      <p class="resist-keys">
        On the cloth: arrow keys move the brush, with Shift a little; the space bar lays a dab; Enter puts the
        brush down and lifts it. The right button and the pen’s other end take away.
      </p>
      <output aria-live="polite" class="resist-said">
        {hand.said.value}
      </output>
    </div>
  );
}
