import { runInNewContext } from 'node:vm';

/**
 * Locks what the language itself brings (Math, JSON, all constructors and prototypes, and those that
 * have no name, as of iterators and typed arrays), so that no module run later can alter what another
 * computes with. It cannot be taken back: for worker threads alone, after the host's own modules.
 *
 * Plain assignment to an inherited name goes on working where ordinary code does it: `error.name = 'x'`,
 * `object.toString = f`.
 */
export function lockLanguage(): void {
  for (const thing of reachable(languageRoots())) lockThing(thing);
}

/** The names of the language alone: those that a fresh context has, without the ones of Node. */
export function languageNames(): string[] {
  const names: string[] = runInNewContext('Object.getOwnPropertyNames(globalThis)');
  return names.filter((name) => name !== 'globalThis' && name !== 'console');
}

/** Makes a property of any object read-only, while objects that inherit it may still be given their own. */
export function lockInherited(owner: object, key: PropertyKey, found: PropertyDescriptor): void {
  const { value, enumerable } = found;
  Object.defineProperty(owner, key, {
    get: () => value,
    set(this: unknown, next: unknown) {
      if (this !== owner && isThing(this) && giveOwn(this, key, next)) return;
      throw new TypeError(`Cannot assign to read only property '${String(key)}' of what all effects share`);
    },
    enumerable,
    configurable: false,
  });
}

/** As an assignment would have done without the lock. */
function giveOwn(receiver: object, key: PropertyKey, value: unknown): boolean {
  return Reflect.defineProperty(receiver, key, {
    value,
    writable: true,
    enumerable: true,
    configurable: true,
  });
}

function languageRoots(): object[] {
  const named = languageNames().map((name) => (globalThis as Record<string, unknown>)[name]);
  const nameless = [
    function* () {},
    async () => {},
    async function* () {},
    [][Symbol.iterator](),
    ''[Symbol.iterator](),
    new Map().entries(),
    new Set().entries(),
    ''.matchAll(/a/g),
    Object.getOwnPropertyDescriptor(Function.prototype, 'caller')?.get,
    new Intl.Segmenter().segment('a'),
    new Intl.Segmenter().segment('a')[Symbol.iterator](),
  ].map((made) => made && Object.getPrototypeOf(made));
  return [...named, ...nameless].filter(isThing);
}

/** Everything that hangs on these by properties, accessors and prototypes. */
function reachable(roots: readonly object[]): Set<object> {
  const found = new Set<object>();
  const waiting: unknown[] = [...roots];
  while (waiting.length > 0) {
    const thing = waiting.pop();
    if (!isThing(thing) || found.has(thing) || thing === globalThis) continue;
    found.add(thing);
    waiting.push(Object.getPrototypeOf(thing));
    for (const { value, get, set } of Object.values(descriptorsOf(thing))) waiting.push(value, get, set);
  }
  return found;
}

/**
 * A prototype is locked name by name and then closed. `Object.freeze` says the same, but V8 takes a frozen
 * prototype for one that may hold read-only elements, and writes to every array below it five to ten
 * times slower. All else is frozen, which leaves its names where compiled code has found them.
 */
function lockThing(thing: object): void {
  if (thing !== Error && !Object.hasOwn(thing, 'constructor')) {
    Object.freeze(thing);
    return;
  }
  for (const key of Reflect.ownKeys(thing)) {
    const found = Reflect.getOwnPropertyDescriptor(thing, key)!;
    if (!found.configurable || isLeftOpen(thing, key)) continue;
    if (found.writable && isOftenOverridden(thing, key)) lockInherited(thing, key, found);
    else
      Object.defineProperty(thing, key, { configurable: false, ...(found.writable && { writable: false }) });
  }
  if (thing === Error && !Object.hasOwn(Error, 'prepareStackTrace'))
    Object.defineProperty(Error, 'prepareStackTrace', { writable: true, configurable: true });
  Object.preventExtensions(thing);
}

/** How stack traces are written is nobody's picture, and both Node and ordinary code set it. */
function isLeftOpen(thing: object, key: PropertyKey): boolean {
  return thing === Error && (key === 'stackTraceLimit' || key === 'prepareStackTrace');
}

/**
 * The inherited names that ordinary code assigns to its own objects. The constructors of these four stay
 * plain: V8 gives up its fast ways through arrays, promises and patterns where one becomes an accessor.
 */
function isOftenOverridden(thing: object, key: PropertyKey): boolean {
  if (thing === Object.prototype) return typeof key === 'string';
  if (thing === Error.prototype || thing instanceof Error) return typeof key === 'string';
  if (!Object.hasOwn(thing, 'constructor')) return false;
  return key === 'toString' || (key === 'constructor' && !isDelicate(thing));
}

const typedArrayPrototype = Object.getPrototypeOf(Uint8Array.prototype);

function isDelicate(thing: object): boolean {
  const delicate = [Array.prototype, Promise.prototype, RegExp.prototype, typedArrayPrototype];
  return delicate.includes(thing) || Object.getPrototypeOf(thing) === typedArrayPrototype;
}

function descriptorsOf(thing: object): Record<PropertyKey, PropertyDescriptor> {
  return Object.getOwnPropertyDescriptors(thing) as Record<PropertyKey, PropertyDescriptor>;
}

function isThing(value: unknown): value is object {
  return (typeof value === 'object' && value !== null) || typeof value === 'function';
}
