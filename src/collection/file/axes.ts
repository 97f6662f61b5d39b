import { BLEND_MODES } from '../../colour/blend.ts';
import type { ParameterValue } from '../../effect/parameter.ts';
import { parseValue } from '../../effect/values.ts';
import { Fault } from '../../fault.ts';
import { findEffect, type Shelf } from '../../host/plugins/shelf.ts';
import { suggestName } from '../../nearest.ts';
import { parseDensity, parseSize, trimNumber } from '../../repeat/length.ts';
import type { AxisEntry } from './schema.ts';

/** Axes that are not parameters of an effect, in the order they take in names. */
export const COMMON_AXES = ['seed', 'opacity', 'blend', 'size', 'scale', 'dpi', 'quality'] as const;
export type CommonAxis = (typeof COMMON_AXES)[number];

/** One value of an axis: as it is used, and as it stands in names and rules. */
export interface AxisValue {
  readonly value: ParameterValue;
  readonly label: string;
}

/** An axis with its values. */
export interface Axis {
  /** A common axis, or `effect.parameter`. */
  readonly name: string;
  readonly values: readonly AxisValue[];
}

/** Values told one by one in a report; more than this on one axis is a mistake in a step. */
const MOST_ON_AXIS = 1e6;

/** How many values an axis has, without making them. @throws Fault (usage) for a range that goes nowhere. */
export function axisLength(entry: AxisEntry): number {
  if (Array.isArray(entry)) return entry.length;
  if ('step' in entry) {
    const steps = (entry.to - entry.from) / entry.step;
    if (!(steps >= 0))
      throw badRange(JSON.stringify(entry), 'a range whose step leads from its start to its end');
    return Math.floor(steps + 1e-9) + 1;
  }
  const least = 'to' in entry && entry.to !== entry.from ? 2 : 1;
  if (entry.count < least) throw badRange(String(entry.count), `a count from ${least}`);
  return entry.count;
}

/**
 * Opens an axis: makes its values and checks each.
 *
 * @throws Fault (usage) for an unknown axis, a value that the axis does not take, or a value that stands twice.
 */
export function openAxis(name: string, entry: AxisEntry, shelf: Shelf): Axis {
  const length = axisLength(entry);
  if (length > MOST_ON_AXIS) throw badRange(`${length} values`, `at most ${MOST_ON_AXIS} values on one axis`);
  const read = readerOf(name, shelf);
  const values = rawValues(entry, length, name).map(read);
  const labels = new Set<string>();
  for (const { label } of values) {
    if (labels.has(label)) throw badRange(`"${label}" twice`, 'different values', name);
    labels.add(label);
  }
  return { name, values };
}

function rawValues(entry: AxisEntry, length: number, name: string): ParameterValue[] {
  if (Array.isArray(entry)) return entry;
  if (!('to' in entry)) {
    if (name !== 'seed') throw badRange('a count alone', 'a list, or a range with "from" and "to"', name);
    return Array.from({ length }, (_, index) => (entry.from ?? 1) + index);
  }
  const step = 'step' in entry ? entry.step : length > 1 ? (entry.to - entry.from) / (length - 1) : 0;
  // 0.1 + 2 x 0.1 must read 0.3.
  return Array.from({ length }, (_, index) => Number((entry.from + index * step).toPrecision(12)));
}

type Reader = (raw: ParameterValue) => AxisValue;

function readerOf(name: string, shelf: Shelf): Reader {
  const common = COMMON_AXES.find((axis) => axis === name);
  if (common) return COMMON_READERS[common];
  const point = name.indexOf('.');
  if (point <= 0) throw unknownAxis(name, shelf);
  const { effect } = findEffect(shelf, name.slice(0, point));
  const parameter = name.slice(point + 1);
  return (raw) => {
    const value = parseValue(effect.name, effect.parameters, parameter, String(raw), effect.retired);
    return { value, label: labelOf(value) };
  };
}

const COMMON_READERS: Record<CommonAxis, Reader> = {
  seed: (raw) => ({ value: String(raw), label: String(raw) }),
  opacity: (raw) => numberBetween('opacity', raw, 0, 1),
  scale: (raw) => numberBetween('scale', raw, 0.01, 100),
  blend: (raw) => oneOf('blend', raw, BLEND_MODES),
  quality: (raw) => oneOf('quality', raw, ['finished', 'sketch']),
  size(raw) {
    const { width, height } = parseSize(String(raw));
    return { value: String(raw), label: `${trimNumber(width, 3)}x${trimNumber(height, 3)}mm` };
  },
  dpi(raw) {
    const perMm = parseDensity(String(raw));
    return { value: perMm, label: trimNumber(perMm * 25.4, 4) };
  },
};

function numberBetween(name: string, raw: ParameterValue, low: number, high: number): AxisValue {
  if (typeof raw === 'number' && raw >= low && raw <= high) return { value: raw, label: labelOf(raw) };
  throw badRange(JSON.stringify(raw), `a number from ${low} to ${high}`, name);
}

function oneOf(name: string, raw: ParameterValue, options: readonly string[]): AxisValue {
  if (options.includes(String(raw))) return { value: raw, label: String(raw) };
  throw badRange(JSON.stringify(raw), `one of ${options.join(', ')}`, name);
}

function labelOf(value: ParameterValue): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(12))) : String(value);
}

function unknownAxis(name: string, shelf: Shelf): Fault {
  const parameters = [...shelf.effects.values()].flatMap(({ effect }) =>
    Object.keys(effect.parameters).map((parameter) => `${effect.name}.${parameter}`),
  );
  const same = parameters.filter((parameter) => parameter.endsWith(`.${name}`));
  return new Fault({
    kind: 'usage',
    expected: `an axis (${COMMON_AXES.join(', ')}, or "effect.parameter")`,
    subject: 'what to vary',
    received: `"${name}"`,
    remedy: same.length
      ? `Write ${same.map((one) => `"${one}"`).join(' or ')}.`
      : suggestName(name, [...COMMON_AXES]),
  });
}

function badRange(received: string, expected: string, name = 'an axis'): Fault {
  return new Fault({ kind: 'usage', expected, subject: name, received });
}
