import { createRequire } from 'node:module';

/** What code branches on; it must read the same whichever effects share a thread. */
const FACTS = [
  'arch',
  'argv',
  'config',
  'env',
  'execArgv',
  'execPath',
  'platform',
  'release',
  'version',
  'versions',
];

/**
 * Locks what `process` says of the machine and takes the debugger out of reach, by which anybody would see
 * and change everything in the thread. What `process` does for the program that an effect is (its listeners, its
 * exit code) is nobody's picture and stays open.
 */
export function lockProcess(): void {
  // Node makes it when it is first read, by `import 'node:process'` too, and could not once it is locked.
  Reflect.get(process, 'allowedNodeEnvironmentFlags');
  // The environment of a thread is no plain object, and cannot be frozen itself.
  Object.defineProperty(process, 'env', { value: { ...process.env } });
  for (const name of FACTS) {
    const value: unknown = Reflect.get(process, name);
    if (typeof value === 'object' && value !== null) Object.freeze(value);
    Object.defineProperty(process, name, { value, writable: false, configurable: false });
  }
  refuseDebugger();
}

function refuseDebugger(): void {
  if (!process.features.inspector) return;
  const inspector = createRequire(import.meta.url)('node:inspector');
  Object.assign(inspector.Session.prototype, { connect: refuse, connectToMainThread: refuse });
  Object.assign(inspector, { open: refuse });
  const { binding } = process as unknown as { binding(name: string): unknown };
  Object.assign(process, {
    binding: (name: string) => (name === 'inspector' ? refuse() : Reflect.apply(binding, process, [name])),
  });
}

function refuse(): never {
  throw new TypeError('Cannot debug what all effects share');
}
