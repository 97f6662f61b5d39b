import { Fault } from '../../fault.ts';

const REMEDY =
  'All that effects share (Math, Array.prototype, globalThis, the modules of Node) is locked where they run, so that none changes the picture of another: keep a changed copy in the module of the effect.';

/** What V8 and the lock itself say of an attempt; a module's own frozen objects say the same of theirs. */
const REFUSALS = [
  /^Cannot assign to read only property '.+' of (object '\[object [\w ]+\]'|object '#<.+>'|function |what all effects share)/,
  /^Cannot (add|define|delete|redefine) property/,
  /object is not extensible$/,
  /is not extensible$/,
];

/** The same Fault, with what to do where an effect tried to alter what it shares with others. */
export function explainLock(fault: Fault): Fault {
  const { cause } = fault;
  if (!(cause instanceof TypeError) || !REFUSALS.some((words) => words.test(cause.message))) return fault;
  const { kind, expected, subject, received, remedy, details } = fault;
  const told = remedy ? `${REMEDY} ${remedy}` : REMEDY;
  return new Fault({ kind, expected, subject, received, remedy: told, details, cause });
}
