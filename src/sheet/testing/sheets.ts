/** Sheets to try things on; for tests alone. */
import { cellIndex, type FieldShape, fieldShape } from '../../field/periodic.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { boxOf } from '../../repeat/repeat.ts';
import type { Paper } from '../paper.ts';
import { REFERENCE_RATES, ratesFor, type SheetRates } from '../rates.ts';
import { drySheet, type Sheet } from '../sheet.ts';

export const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'];

export function shapeOf(layout: string, width: number, height: number, mm = 0.5): FieldShape {
  return fieldShape(boxOf({ layout: parseLayout(layout), width: width * mm, height: height * mm }), mm);
}

/** Paper that pins nothing and holds nothing: all of a sheet is film. */
export function barePaper({ width, height }: FieldShape, capacity = 0): Paper {
  const row = (value: number) => new Float32Array(width * height).fill(value);
  return { pin: row(0), ease: row(1), capacity: row(capacity) };
}

/** Rates without drying, settling or thirst. */
export const STILL: SheetRates = {
  ...REFERENCE_RATES,
  creeping: 0,
  suction: 0,
  drying: 0,
  settling: 0,
  lifting: 0,
  fixing: 0,
  passing: 1,
  spreading: 0,
};

/** Numbers that look random, 0..1, by a cell's place, moved by (di, dj) cells. */
export function mixed(shape: FieldShape, salt: number, di = 0, dj = 0): Float32Array {
  const values = new Float32Array(shape.width * shape.height);
  for (let j = 0, k = 0; j < shape.height; j++)
    for (let i = 0; i < shape.width; i++, k++)
      values[cellIndex(shape, i + di, j + dj)] =
        Math.abs(Math.sin(k * 12.9898 + salt * 78.233) * 43758.5453) % 1;
  return values;
}

/** A restless sheet, half of it dry, the whole moved by (di, dj) cells. */
export function restless(layout: string, di = 0, dj = 0): Sheet {
  const shape = shapeOf(layout, 30, 30);
  const at = (salt: number) => mixed(shape, salt, di, dj);
  const paper: Paper = {
    pin: at(1).map((value) => 0.4 * value),
    ease: at(2).map((value) => Math.exp(2 * value - 1)),
    capacity: at(3).map((value) => 0.4 + 0.2 * value),
  };
  const sheet = drySheet(shape, paper, true);
  sheet.water.set(at(4).map((value) => 3 * value));
  sheet.afloat.amount.set(at(5).map((value) => 2 * value ** 4));
  sheet.settled.amount.set(at(6));
  sheet.second!.afloat.set(at(7).map((value) => (value > 0.9 ? 3 : 0)));
  return sheet;
}

/** Rates of a busy sheet: five reference steps in one. */
export const BUSY = ratesFor({ ...REFERENCE_RATES, fallX: 0.05, fallY: 0.12 }, { longer: 5, mmPerCell: 0.5 });

export function sumOf(values: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum;
}

/** Pearson's. */
export function correlationOf(one: ArrayLike<number>, other: ArrayLike<number>): number {
  const [a, b] = [sumOf(one) / one.length, sumOf(other) / other.length];
  let [both, first, second] = [0, 0, 0];
  for (let k = 0; k < one.length; k++) {
    both += (one[k] - a) * (other[k] - b);
    first += (one[k] - a) ** 2;
    second += (other[k] - b) ** 2;
  }
  return both / Math.sqrt(first * second);
}
