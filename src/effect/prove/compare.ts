import { type AnyLayer, PLANE_CHANNELS, PLANE_NAMES, type PlaneName } from '../layer.ts';

/** Where two layers differ most. */
export interface Difference {
  readonly plane: PlaneName;
  readonly channel: number;
  /** Pixel of the layer. */
  readonly x: number;
  readonly y: number;
  readonly first: number;
  readonly second: number;
  readonly size: number;
  /** Numbers that differ. */
  readonly count: number;
}

/**
 * The largest difference between two layers of the same size, or none where none exceeds `tolerance`.
 * A number that is no number in one alone differs infinitely.
 */
export function differenceOf(a: AnyLayer, b: AnyLayer, tolerance = 0): Difference | undefined {
  let worst: Difference | undefined;
  let count = 0;
  for (const plane of PLANE_NAMES) {
    const [first, second] = [a[plane], b[plane]];
    if (!first || !second) continue;
    const channels = PLANE_CHANNELS[plane];
    for (let k = 0; k < first.length; k++) {
      if (Object.is(first[k], second[k])) continue;
      const distance = Math.abs(first[k] - second[k]);
      const size = Number.isNaN(distance) ? Number.POSITIVE_INFINITY : distance;
      if (size <= tolerance) continue;
      count++;
      if (worst && size <= worst.size) continue;
      const pixel = Math.floor(k / channels);
      worst = {
        plane,
        channel: k % channels,
        x: pixel % a.width,
        y: Math.floor(pixel / a.width),
        first: first[k],
        second: second[k],
        size,
        count,
      };
    }
  }
  return worst && { ...worst, count };
}

/** A difference in words. */
export function describeDifference({ plane, x, y, first, second, count }: Difference): string {
  return `${plane} ${show(first)} and ${show(second)} at pixel (${x}, ${y})${count > 1 ? `, and ${count - 1} more that differ` : ''}`;
}

function show(value: number): string {
  return String(Number.isFinite(value) ? Number(value.toPrecision(7)) : value);
}

/**
 * The place where two pieces of plain data first differ, e.g. `model.points[12]`, or none. Typed arrays
 * are compared to the bit. Functions are not compared: they are no data.
 */
export function dataDifference(a: unknown, b: unknown, path = 'model'): string | undefined {
  return differAt(a, b, path, new Map());
}

function differAt(a: unknown, b: unknown, path: string, seen: Map<object, object>): string | undefined {
  if (typeof a === 'function' && typeof b === 'function') return undefined;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) {
    return Object.is(a, b) ? undefined : path;
  }
  if (seen.get(a) === b) return undefined;
  seen.set(a, b);
  if (ArrayBuffer.isView(a) && ArrayBuffer.isView(b)) return viewsDifferAt(a, b, path);
  if (isBuffer(a) && isBuffer(b)) return viewsDifferAt(new Uint8Array(a), new Uint8Array(b), path);
  if (a instanceof Map && b instanceof Map) return differAt([...a], [...b], path, seen);
  if (a instanceof Set && b instanceof Set) return differAt([...a], [...b], path, seen);
  const names = Object.keys(a);
  if (Array.isArray(a) !== Array.isArray(b)) return path;
  if (Array.isArray(a) && a.length !== (b as unknown as readonly unknown[]).length) return path;
  const added = Object.keys(b).find((name) => !Object.hasOwn(a, name));
  if (added !== undefined) return `${path}.${added}`;
  for (const name of names) {
    if (!Object.hasOwn(b, name)) return `${path}.${name}`;
    const inner = Array.isArray(a) ? `${path}[${name}]` : `${path}.${name}`;
    const found = differAt(a[name as never], b[name as never], inner, seen);
    if (found) return found;
  }
  return undefined;
}

function viewsDifferAt(a: ArrayBufferView, b: ArrayBufferView, path: string): string | undefined {
  if (a.constructor !== b.constructor || a.byteLength !== b.byteLength) return path;
  const [first, second] = [bytesOf(a), bytesOf(b)];
  const at = first.findIndex((byte, k) => byte !== second[k]);
  if (at < 0) return undefined;
  const { BYTES_PER_ELEMENT = 1 } = a as Float32Array;
  return `${path}[${Math.floor(at / BYTES_PER_ELEMENT)}]`;
}

function bytesOf({ buffer, byteOffset, byteLength }: ArrayBufferView): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength);
}

function isBuffer(value: object): value is ArrayBuffer {
  return value instanceof ArrayBuffer;
}

/** Bytes of the typed arrays in a piece of data, each buffer once, and 8 for every other value. */
export function bytesIn(value: unknown, seen = new Set<unknown>()): number {
  if (typeof value === 'string') return value.length * 2;
  if (typeof value !== 'object' || value === null) return 8;
  const key = ArrayBuffer.isView(value) ? value.buffer : value;
  if (seen.has(key)) return 0;
  seen.add(key);
  if (ArrayBuffer.isView(value)) return value.buffer.byteLength;
  const inner = value instanceof Map || value instanceof Set ? [...value] : Object.values(value);
  return inner.reduce<number>((sum, item) => sum + bytesIn(item, seen), 0);
}

/** Whether plain data has a number in it that is none. */
export function holdsNaN(value: unknown): boolean {
  return holdsNumber(value, Number.isNaN);
}

/** Whether there is such a number anywhere in a piece of data. */
export function holdsNumber(
  value: unknown,
  isSuch: (value: unknown) => boolean,
  seen = new Set<unknown>(),
): boolean {
  if (typeof value === 'number') return isSuch(value);
  if (typeof value !== 'object' || value === null || seen.has(value)) return false;
  seen.add(value);
  if (ArrayBuffer.isView(value))
    return value instanceof DataView ? false : (value as Float32Array).some((item) => isSuch(item));
  const inner = value instanceof Map || value instanceof Set ? [...value] : Object.values(value);
  return inner.some((item) => holdsNumber(item, isSuch, seen));
}
