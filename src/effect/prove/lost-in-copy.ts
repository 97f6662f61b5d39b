const PLAIN: readonly unknown[] = [Object.prototype, Array.prototype, null];

/**
 * The first thing of a model that its copy for a worker has no more, in words: a property that was put on an array, or
 * the methods of a class. Nothing where all came over.
 */
export function lostInCopy(
  model: unknown,
  copy: unknown,
  path = 'model',
  seen = new Set<unknown>(),
): string | undefined {
  if (typeof model !== 'object' || model === null || typeof copy !== 'object' || copy === null)
    return undefined;
  if (seen.has(model)) return undefined;
  seen.add(model);
  const prototype = Object.getPrototypeOf(model);
  if (!PLAIN.includes(prototype) && prototype !== Object.getPrototypeOf(copy))
    return `the methods of ${path}, which is a ${prototype.constructor?.name || 'class'}`;
  for (const name of namesOf(model)) {
    if (!Object.hasOwn(copy, name)) return `${path}.${name}`;
    const [mine, theirs] = [model, copy].map((of) => (of as Record<string, unknown>)[name]);
    const lost = lostInCopy(mine, theirs, `${path}.${name}`, seen);
    if (lost !== undefined) return lost;
  }
  return undefined;
}

/** Of arrays of numbers only what was put on them: the numbers themselves come over. */
function namesOf(of: object): string[] {
  if (!ArrayBuffer.isView(of)) return Object.keys(of);
  const names: string[] = [];
  for (const name of Object.getOwnPropertyNames(of).reverse()) {
    if (/^\d+$/.test(name)) break;
    names.push(name);
  }
  return names;
}
