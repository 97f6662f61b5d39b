import { encodeSrgb, formatHex, type Report, type Setting } from 'tenter';
import type { Grown } from './model.ts';
import type { PARAMETERS } from './parameters.ts';
import { lost, type Measured } from './suits.ts';
import type { Swatch } from './swatch.ts';

/** How it was grown. */
interface Growth {
  readonly way: Grown['way'];
  readonly measured: Measured;
  /** mm */
  readonly comesBack: number;
}

/** Tells what was taken, found and chosen, and why. */
export function reportSwatch(
  { parameters: values, report }: Setting<typeof PARAMETERS>,
  { part, asked, paper, unevenness, isFlat }: Swatch,
  { way, measured, comesBack }: Growth,
): void {
  const tell = (name: string, value: number | string, rest: Partial<Report> = {}) =>
    report({ name, value, ...rest });
  tell('taken', mm(part), asked ? { asked } : {});
  if (isFlat) tell('picture', 'one tone all over: there is nothing to grow');
  tell('way', way === 'even' ? 'even, by blending' : 'figured, by joining pieces');
  tell('lost by blending', Math.round(100 * lost(measured)), { unit: 'percent' });
  if (unevenness > 1.02) tell('light of the scan', `${unevenness.toFixed(2)} times from dark to bright`);
  if (values.layAs === 'wash' && values.paper === 'found') {
    tell('paper', formatHex([encodeSrgb(paper[0]), encodeSrgb(paper[1]), encodeSrgb(paper[2])]));
  }
  if (Number.isFinite(comesBack)) tell('the same piece again after', comesBack, { unit: 'mm' });
  else tell('the same piece again', 'nowhere near');
}

function mm([, , width, height]: readonly number[]): string {
  return `${tenths(width)} x ${tenths(height)} mm`;
}

function tenths(value: number): number {
  return Math.round(10 * value) / 10;
}
