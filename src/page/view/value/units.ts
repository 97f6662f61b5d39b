import type { NumberParameter } from '../../../effect/parameter.ts';
import { trimNumber } from '../../../repeat/length.ts';

type Range = Pick<NumberParameter, 'unit' | 'min' | 'max' | 'whole'>;

/** How many times a value is written: shares are read as percent. */
function timesOf({ unit, max }: Range): number {
  return unit === 'ratio' && max <= 1 ? 100 : 1;
}

/** What stands behind the figure. */
export function unitWord(range: Range): string {
  const { unit } = range;
  if (unit === 'percent' || timesOf(range) === 100) return ' %';
  if (unit === 'ratio' || unit === 'count') return '';
  return unit === 'deg' ? '°' : ` ${unit}`;
}

/** The figure as a person writes it. */
export function figureOf(range: Range, value: number): string {
  return trimNumber(value * timesOf(range), range.whole ? 0 : placesOf(range) + 1);
}

/** What a person wrote, read back; none where it is no number. The unit may stand behind it. */
export function readFigure(range: Range, text: string): number | undefined {
  const match = /^\s*([+-]?(?:\d+[.,]?\d*|[.,]\d+))\s*(.*?)\s*$/.exec(text);
  if (!match) return undefined;
  const unit = unitWord(range).trim();
  if (match[2] !== '' && match[2].toLowerCase() !== unit.toLowerCase()) return undefined;
  return within(range, Number(match[1].replace(',', '.')) / timesOf(range));
}

/** The nearest value that the range has. */
export function within({ min, max, whole }: Range, value: number): number {
  const settled = whole ? Math.round(value) : value;
  const [least, most] = whole ? [Math.ceil(min), Math.floor(max)] : [min, max];
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

/** Decimals that a step needs, as it is written. */
function placesOf(range: Range): number {
  return Math.max(0, -Math.floor(Math.log10(stepOf(range) * timesOf(range)) + 1e-9));
}
