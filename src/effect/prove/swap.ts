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
