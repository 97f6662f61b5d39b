import { BLEND_MODES } from '../../colour/blend.ts';
import type { Parameter, ParameterValue } from '../../effect/parameter.ts';
import { itemsOf } from '../../effect/read-value.ts';
import { frozenValue, writtenValue } from '../../effect/value.ts';
import { parseValue, takeValue } from '../../effect/values.ts';
import { Fault } from '../../fault.ts';
import { isInkName, withoutInkNames } from '../../host/ink/named-colours.ts';
import { placedPictures } from '../../host/plugins/picture-paths.ts';
import { findEffect, type Shelf } from '../../host/plugins/shelf.ts';
import { suggestName } from '../../nearest.ts';
import type { EffectDescription } from '../../render/description.ts';
import { parseDensity, parseSize, trimNumber } from '../../repeat/length.ts';
import type { AxisEntry } from './schema.ts';

/** Axes that are not parameters of an effect, in the order they take in names. */
export const COMMON_AXES = [
  'seed',
  'opacity',
  'blend',
  'size',
  'scale',
  'dpi',
  'quality',
  'colourway',
] as const;
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
 * @param folder Of the collection, from which the paths of pictures start.
 * @throws Fault (usage) for an unknown axis, a value that the axis does not take, or a value that stands twice.
 */
export function openAxis(name: string, entry: AxisEntry, shelf: Shelf, folder: string): Axis {
  const length = axisLength(entry);
  if (length > MOST_ON_AXIS) throw badRange(`${length} values`, `at most ${MOST_ON_AXIS} values on one axis`);
  const read = readerOf(name, shelf, folder);
  const values = rawValues(entry, length, name).map(read);
  const labels = new Set<string>();
  for (const { label } of values) {
    if (labels.has(label)) throw badRange(`"${label}" twice`, 'different values', name);
    labels.add(label);
  }
  return { name, values };
}

function rawValues(entry: AxisEntry, length: number, name: string): readonly ParameterValue[] {
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

function readerOf(name: string, shelf: Shelf, folder: string): Reader {
  const common = COMMON_AXES.find((axis) => axis === name);
  if (common) return (raw) => COMMON_READERS[common](requireOne(raw, name));
  const point = name.indexOf('.');
  if (point <= 0) throw unknownAxis(name, shelf);
  const { effect } = findEffect(shelf, name.slice(0, point));
  const parameter = name.slice(point + 1);
  return (raw) => {
    const value = readRaw(effect, parameter, raw, name);
    const placed = placedPictures(effect.parameters, { [parameter]: value }, folder);
    return { value: placed[parameter], label: labelOf(value) };
  };
}

function readRaw(
  effect: EffectDescription,
  parameter: string,
  raw: ParameterValue,
  name: string,
): ParameterValue {
  const taken = effect.parameters[parameter] as Parameter | undefined;
  if (taken?.kind === 'numbers' || taken?.kind === 'colours') {
    // [12, 4] might be one list or two: only lists within the list say which.
    if (typeof raw !== 'object') throw flatAxis(raw, name);
    const { [parameter]: seen } = withoutInkNames(effect.parameters, { [parameter]: raw });
    takeValue(effect.name, effect.parameters, parameter, seen);
    return frozenValue(raw);
  }
  const text = String(requireOne(raw, name));
  if (taken?.kind === 'colour' && isInkName(text)) return text.trim();
  return parseValue(effect.name, effect.parameters, parameter, text, effect.retired);
}

type Single = Exclude<ParameterValue, object>;

function requireOne(raw: ParameterValue, name: string): Single {
  if (typeof raw !== 'object') return raw;
  const remedy = `Write its values side by side: [${raw.map((item) => JSON.stringify(item)).join(', ')}].`;
  throw badRange(JSON.stringify(raw), 'values that are no lists', name, remedy);
}

function flatAxis(raw: Single, name: string): Fault {
  const items = typeof raw === 'string' ? itemsOf(raw).map(numberOrText) : [raw];
  return badRange(
    JSON.stringify(raw),
    'a list of lists, one for each value',
    name,
    `Write ${JSON.stringify([items]).replaceAll(',', ', ')} for one value.`,
  );
}

function numberOrText(item: string): string | number {
  return item !== '' && Number.isFinite(Number(item)) ? Number(item) : item;
}

const COMMON_READERS: Record<CommonAxis, (raw: Single) => AxisValue> = {
  seed: (raw) => ({ value: String(raw), label: String(raw) }),
  opacity: (raw) => numberBetween('opacity', raw, 0, 1),
  scale: (raw) => numberBetween('scale', raw, 0.01, 100),
  blend: (raw) => oneOf('blend', raw, BLEND_MODES),
  colourway: (raw) => ({ value: String(raw), label: String(raw) }),
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

function numberBetween(name: string, raw: Single, low: number, high: number): AxisValue {
  if (typeof raw === 'number' && raw >= low && raw <= high) return { value: raw, label: labelOf(raw) };
  throw badRange(JSON.stringify(raw), `a number from ${low} to ${high}`, name);
}

function oneOf(name: string, raw: Single, options: readonly string[]): AxisValue {
  if (options.includes(String(raw))) return { value: raw, label: String(raw) };
  throw badRange(JSON.stringify(raw), `one of ${options.join(', ')}`, name);
}

function labelOf(value: ParameterValue): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(12))) : writtenValue(value);
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

function badRange(received: string, expected: string, name = 'an axis', remedy?: string): Fault {
  return new Fault({ kind: 'usage', expected, subject: name, received, remedy });
}
