import type { NumberParameter } from '../../../effect/parameter.ts';
import { endsOf } from '../../../effect/value.ts';
import { readWords } from '../../../effect/value-words.ts';
import { millimetresOf } from '../../../repeat/length.ts';

/** What a number may be. */
export type Range = Pick<NumberParameter, 'unit' | 'min' | 'max' | 'whole'>;

/**
 * What a person wrote, as the nearest value of the range; none where it is no number. Its unit may stand behind it,
 * of a length any that lengths are written in.
 */
export function readFigure(range: Range, text: string): number | undefined {
  const { unit, min, max } = range;
  const plain = text.trim().replace(',', '.');
  const length = unit === 'mm' ? millimetresOf(plain) : undefined;
  const value = length ?? readWords({ kind: 'number', unit, min, max, default: min, help: '' }, plain);
  return typeof value === 'number' && Number.isFinite(value) ? within(range, value) : undefined;
}

/** The nearest value that the range has. */
export function within(range: Range, value: number): number {
  const settled = range.whole ? Math.round(value) : value;
  const [least, most] = endsOf(range);
  return Math.min(most, Math.max(least, settled));
}

/** A step of one arrow key: about a hundredth of the range, a round figure. */
export function stepOf({ min, max, whole }: Range): number {
  if (whole) return Math.max(1, Math.round((max - min) / 100));
  const rough = (max - min) / 100;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * (rough / power < 1.5 ? 1 : rough / power < 3.5 ? 2 : 5);
}

/** The value so many steps on, on a whole step. */
export function stepped(range: Range, value: number, steps: number): number {
  const step = stepOf(range);
  const next = Math.round(value / step + steps) * step;
  return within(range, Number(next.toPrecision(12)));
}

/** A value as it is shown: a place finer than its steps, and a tenth at least. */
export function roundedFor(range: Range, value: number): number {
  const places = Math.max(1, 1 - Math.floor(Math.log10(stepOf(range))));
  return Number(value.toFixed(places));
}
