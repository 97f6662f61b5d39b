import type { Parameter } from './parameter.ts';

/**
 * The value that a text stands for, as in `--set ends=14`; what cannot be read comes out as no valid value. A
 * number may carry its unit, a list has commas between its items, and a text is taken as it is.
 */
export function readValue(parameter: Parameter, text: string): unknown {
  switch (parameter.kind) {
    case 'number':
      return readNumber(parameter.unit, text);
    case 'switch':
      return readSwitch(text.trim());
    case 'numbers':
      return itemsOf(text).map((item) => readNumber(parameter.unit, item));
    case 'colours':
      return itemsOf(text);
    case 'text':
      return text;
    default:
      return text.trim();
  }
}

/** A share may be said in hundredths: `60%`. NaN where it is no number. */
export function readNumber(unit: string, text: string): number {
  const whole = text.trim();
  const percent = unit === 'ratio' && PERCENT.exec(whole);
  // By its decimals: 0.34 divided by 100 is not the number nearest to 0.0034.
  if (percent) return Number(`${percent[1]}e-2`);
  const bare = whole.endsWith(unit) ? whole.slice(0, -unit.length).trim() : whole;
  return bare === '' ? Number.NaN : Number(bare);
}

const PERCENT = /^([+-]?\d+(?:\.\d+)?)\s*%$/;

function readSwitch(text: string): boolean | string {
  if (text === 'true' || text === 'on') return true;
  return text === 'false' || text === 'off' ? false : text;
}

/** The items between the commas of a list. */
export function itemsOf(text: string): string[] {
  return text.split(',').map((item) => item.trim());
}
