/**
 * Node reads files and asks for its machine itself too, to load what is imported: the caller of `watched` is
 * then one of its own.
 */
export function isCalledByNode(watched: (...given: never[]) => unknown): boolean {
  const at = { stack: '' };
  Error.captureStackTrace(at, watched);
  const caller = at.stack.split('\n').find((line) => line.includes(' at '));
  return caller === undefined || caller.includes('node:');
}
