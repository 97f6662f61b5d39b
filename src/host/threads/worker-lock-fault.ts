import { Fault } from '../../fault.ts';

const REMEDY =
  'All that effects share (Math, Array.prototype, globalThis, the modules of Node) is locked where they run, so that none changes the picture of another: keep a changed copy in the module of the effect.';

/** What V8 and the lock itself say of an attempt; a module's own frozen objects say the same of theirs. */
const REFUSALS = [
  /^Cannot assign to read only property '.+' of (object '\[object [\w ]+\]'|object '#<.+>'|function |what all effects share)/,
  /^Cannot (add|define|delete|redefine) property/,
  /object is not extensible$/,
  /is not extensible$/,
  /^Cannot debug what all effects share$/,
];

/** What to do where an effect tried to alter what it shares with others; nothing for any other error. */
export function lockRemedy(error: unknown): string | undefined {
  const isRefusal = error instanceof TypeError && REFUSALS.some((words) => words.test(error.message));
  return isRefusal ? REMEDY : undefined;
}

/** The same Fault, with what to do where an effect tried to alter what it shares with others. */
export function explainLock(fault: Fault): Fault {
  const { cause } = fault;
  const shared = lockRemedy(cause);
  if (!shared) return fault;
  const { kind, expected, subject, received, remedy, details } = fault;
  const told = remedy ? `${shared} ${remedy}` : shared;
  return new Fault({ kind, expected, subject, received, remedy: told, details, cause });
}
