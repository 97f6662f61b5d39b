import { createRequire, syncBuiltinESMExports } from 'node:module';
import { languageNames, lockInherited } from './worker-lock.ts';
import { lockProcess } from './worker-lock-process.ts';

/** The modules of Node that an effect might compute with, or reach another effect through. */
const NODE_MODULES = [
  'assert',
  'async_hooks',
  'buffer',
  'child_process',
  'console',
  'crypto',
  'diagnostics_channel',
  'dns',
  'events',
  'fs',
  'fs/promises',
  'http',
  'https',
  'inspector',
  'module',
  'net',
  'os',
  'path',
  'perf_hooks',
  'process',
  'querystring',
  'readline',
  'stream',
  'string_decoder',
  'timers',
  'timers/promises',
  'tls',
  'url',
  'util',
  'v8',
  'vm',
  'worker_threads',
  'zlib',
] as const;

/** Reading one of these loads all that fetches over the network, or warns; no picture depends on them. */
const LEFT_OPEN = new Set([
  'FormData',
  'Headers',
  'Request',
  'Response',
  'MessageEvent',
  'WebSocket',
  'EventSource',
  'CloseEvent',
  'Storage',
  'localStorage',
  'sessionStorage',
]);

/** Locks the functions and constants of Node's modules and the prototypes of its classes; see `lockLanguage`. */
export function lockNode(): void {
  lockProcess();
  const require = createRequire(import.meta.url);
  for (const name of NODE_MODULES) lockModule(require(`node:${name}`));
  lockClass(Object.getPrototypeOf(AbortSignal));
  for (const kept of [performance, crypto]) Object.preventExtensions(kept);
  for (let proto = Object.getPrototypeOf(performance); proto && proto !== Object.prototype; ) {
    lockPrototype(proto);
    proto = Object.getPrototypeOf(proto);
  }
  for (let proto = MessagePort.prototype; proto && proto !== Object.prototype; ) {
    lockPrototype(proto);
    proto = Object.getPrototypeOf(proto);
  }
  syncBuiltinESMExports();
}

/** Makes every global name read-only and takes no new ones, so that no effect meets what another has put there. */
export function lockGlobals(): void {
  const language = new Set(languageNames());
  for (const key of Reflect.ownKeys(globalThis)) {
    if (typeof key === 'string' && LEFT_OPEN.has(key)) continue;
    const found = Reflect.getOwnPropertyDescriptor(globalThis, key)!;
    if (!found.configurable) continue;
    // What has a setter is made when first read, and would then replace itself.
    const value = found.set ? (globalThis as Record<PropertyKey, unknown>)[key] : found.value;
    const { enumerable } = found;
    if (found.get && !found.set) Object.defineProperty(globalThis, key, { configurable: false });
    else Object.defineProperty(globalThis, key, { value, enumerable, writable: false, configurable: false });
    if (typeof key === 'string' && !language.has(key) && typeof value === 'function') lockClass(value);
  }
  // Where fetch keeps its connections, once it is called.
  Object.defineProperty(globalThis, Symbol.for('undici.globalDispatcher.1'), { configurable: true });
  Object.preventExtensions(globalThis);
}

function lockModule(module: object): void {
  lockMembers(module);
  if (typeof module === 'function') lockClass(module);
  for (const { value } of Object.values(Object.getOwnPropertyDescriptors(module))) {
    if (typeof value === 'function') lockClass(value);
  }
}

/** A class may count for itself (an emitter its listeners): only what is a function is locked. */
function lockClass(made: object): void {
  lockMembers(made);
  const prototype: unknown = (made as { prototype?: unknown }).prototype;
  if (typeof prototype === 'object' && prototype !== null) lockPrototype(prototype);
}

function lockMembers(owner: object): void {
  for (const key of Reflect.ownKeys(owner)) {
    const found = settled(owner, key);
    if (!found.configurable) continue;
    if (found.get || found.set) Object.defineProperty(owner, key, { configurable: false });
    else if (typeof found.value === 'function')
      Object.defineProperty(owner, key, { writable: false, configurable: false });
    else if (isTable(found.value) && owner !== process && !String(key).startsWith('_')) {
      Object.defineProperty(owner, key, { writable: false, configurable: false });
      lockTable(found.value);
    }
  }
}

/** What Node makes when it is first read replaces itself then, which it could not do once it is locked. */
function settled(owner: object, key: PropertyKey): PropertyDescriptor {
  const found = Reflect.getOwnPropertyDescriptor(owner, key)!;
  if (!found.configurable || !found.get || !found.set || owner === process) return found;
  Reflect.get(owner, key);
  return Reflect.getOwnPropertyDescriptor(owner, key)!;
}

/** Constants, or a module within a module; not where state is kept, which has a leading underscore. */
function lockTable(table: object): void {
  if (Object.isFrozen(table)) return;
  Object.freeze(table);
  for (const { value } of Object.values(Object.getOwnPropertyDescriptors(table)))
    if (isTable(value)) lockTable(value);
}

function isTable(value: unknown): value is object {
  if (typeof value !== 'object' || value === null) return false;
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function lockPrototype(prototype: object): void {
  for (const key of Reflect.ownKeys(prototype)) {
    const found = Reflect.getOwnPropertyDescriptor(prototype, key)!;
    if (!found.configurable) continue;
    if (typeof found.value === 'function') lockInherited(prototype, key, found);
    else if (found.get || found.set) Object.defineProperty(prototype, key, { configurable: false });
  }
}
