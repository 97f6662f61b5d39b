import { suggestName } from '../nearest.ts';

type Values = Readonly<Record<string, unknown>>;

/**
 * The same values, frozen, noting every name that is read and not there. They stay plain data: only their
 * prototype listens, which nobody copies and which is asked for what they do not have themselves.
 *
 * @param unknown Receives the names, in the order in which they are read.
 */
export function noteUnknown<T extends Values>(values: T, unknown: string[]): T {
  const listener = new Proxy(Object.prototype, {
    get(target, key, receiver) {
      if (typeof key === 'string' && !(key in target)) unknown.push(key);
      return Reflect.get(target, key, receiver);
    },
  });
  return Object.freeze(Object.assign(Object.create(listener), values));
}

/**
 * Refuses a model that a misspelt parameter has spoilt. To read a name that is not there is no harm by
 * itself: an effect may ask for what an older version of it had.
 *
 * @param unknown What `prepare` read and did not find.
 * @throws TypeError that names the parameter, and the nearest that there is.
 */
export function refuseMisspelt(unknown: readonly string[], values: Values, model: unknown): void {
  if (unknown.length === 0 || !isSpoilt(model, new Set())) return;
  const [name] = unknown;
  throw new TypeError(
    `it reads parameters.${name}, which is not declared, and its model holds what is no number. ${suggestName(name, Object.keys(values))}`,
  );
}

function isSpoilt(value: unknown, seen: Set<unknown>): boolean {
  if (value === undefined || typeof value === 'number') return Number.isNaN(value ?? Number.NaN);
  if (typeof value !== 'object' || value === null || seen.has(value)) return false;
  seen.add(value);
  if (value instanceof Float32Array || value instanceof Float64Array)
    return value.some((number) => Number.isNaN(number));
  if (ArrayBuffer.isView(value)) return false;
  return Object.values(value).some((inner) => isSpoilt(inner, seen));
}
