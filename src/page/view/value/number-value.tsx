import { useRef, useState } from 'preact/hooks';
import { numberWords } from '../../../effect/value-words.ts';
import { type Range, readFigure, roundedFor, stepOf, stepped, within } from './units.ts';

interface Properties {
  readonly name: string;
  readonly help?: string;
  readonly range: Range;
  readonly value: number;
  readonly onValue: (value: number) => void;
}

/** So many px of drag run through the whole range. */
const WHOLE_DRAG = 320;
/** Less than that is a press. */
const LEAST_DRAG = 4;

/** A number within a sentence: dragged along, stepped with arrow keys, or written with its unit. */
export function NumberValue({ name, help, range, value, onValue }: Properties) {
  const [isWriting, write] = useState(false);
  const drag = useRef<{ x: number; from: number; hasMoved: boolean } | undefined>(undefined);
  const words = numberWords(range, roundedFor(range, value));
  if (isWriting) {
    return (
      <NumberField
        {...{ name, range, words }}
        onDone={(next) => {
          write(false);
          if (next !== undefined && next !== value) onValue(next);
        }}
      />
    );
  }
  return (
    <span
      class="value number"
      role="spinbutton"
      tabIndex={0}
      aria-label={name}
      aria-valuenow={value}
      aria-valuemin={range.min}
      aria-valuemax={range.max}
      aria-valuetext={words}
      title={help}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        drag.current = { x: event.clientX, from: value, hasMoved: false };
      }}
      onPointerMove={(event) => {
        const held = drag.current;
        if (!held) return;
        const moved = event.clientX - held.x;
        if (!held.hasMoved && Math.abs(moved) < LEAST_DRAG) return;
        held.hasMoved = true;
        const step = stepOf(range);
        const exact = held.from + ((range.max - range.min) * moved) / WHOLE_DRAG;
        const next = within(range, Number((Math.round(exact / step) * step).toPrecision(12)));
        if (next !== value) onValue(next);
      }}
      onPointerUp={() => {
        if (drag.current && !drag.current.hasMoved) write(true);
        drag.current = undefined;
      }}
      onPointerCancel={() => {
        drag.current = undefined;
      }}
      onKeyDown={(event) => {
        const next = keyed(event, range, value);
        if (next === 'write') write(true);
        else if (next === undefined) return;
        else if (next !== value) onValue(next);
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      {words}
    </span>
  );
}

function keyed(
  { key, shiftKey, ctrlKey, metaKey, altKey }: KeyboardEvent,
  range: Properties['range'],
  value: number,
): number | 'write' | undefined {
  if (ctrlKey || metaKey || altKey) return undefined;
  const many = shiftKey ? 10 : 1;
  switch (key) {
    case 'ArrowUp':
    case 'ArrowRight':
      return stepped(range, value, many);
    case 'ArrowDown':
    case 'ArrowLeft':
      return stepped(range, value, -many);
    case 'PageUp':
      return stepped(range, value, 10);
    case 'PageDown':
      return stepped(range, value, -10);
    case 'Home':
      return within(range, range.min);
    case 'End':
      return within(range, range.max);
    case 'Enter':
    case ' ':
      return 'write';
    default:
      return /^[\d.,-]$/.test(key) ? 'write' : undefined;
  }
}

function NumberField({
  name,
  range,
  words,
  onDone,
}: Pick<Properties, 'name' | 'range'> & { words: string; onDone: (value?: number) => void }) {
  const [isWrong, say] = useState(false);
  const isOver = useRef(false);
  const done = (value?: number) => {
    if (isOver.current) return;
    isOver.current = true;
    onDone(value);
  };
  return (
    <input
      class="value field"
      aria-label={`${name}, from ${numberWords(range, range.min)} to ${numberWords(range, range.max)}`}
      aria-invalid={isWrong}
      size={Math.max(4, words.length)}
      defaultValue={words}
      ref={(field) => {
        if (!field || field.dataset.isOpen) return;
        field.dataset.isOpen = 'yes';
        field.focus();
        field.select();
      }}
      onInput={(event) => say(readFigure(range, event.currentTarget.value) === undefined)}
      onBlur={(event) => done(readFigure(range, event.currentTarget.value))}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === 'Escape') {
          // A dialog around it would close as well.
          event.preventDefault();
          done();
        }
        if (event.key !== 'Enter') return;
        const value = readFigure(range, event.currentTarget.value);
        if (value === undefined) say(true);
        else done(value);
      }}
    />
  );
}
