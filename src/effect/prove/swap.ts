/** Puts another value in the place of a property, whether its own or inherited. @returns What puts it back. */
export function swap(holder: object, key: PropertyKey, value: unknown): () => void {
  const own = Object.getOwnPropertyDescriptor(holder, key);
  if (own && !own.configurable && !own.writable) return () => {};
  Object.defineProperty(holder, key, {
    configurable: own?.configurable ?? true,
    writable: true,
    enumerable: own?.enumerable ?? false,
    value,
  });
  return () => {
    if (own) Object.defineProperty(holder, key, own);
    else delete (holder as Record<PropertyKey, unknown>)[key];
  };
}

/** The same, of a property that is worked out whenever it is read. */
export function swapGetter(holder: object, key: PropertyKey, get: () => unknown): () => void {
  const own = Object.getOwnPropertyDescriptor(holder, key);
  if (own && !own.configurable) return swap(holder, key, get());
  Object.defineProperty(holder, key, { configurable: true, enumerable: own?.enumerable ?? false, get });
  return () => {
    if (own) Object.defineProperty(holder, key, own);
    else delete (holder as Record<PropertyKey, unknown>)[key];
  };
}
