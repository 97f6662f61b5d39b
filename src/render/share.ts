/** Below this a copy per worker costs less than a shared block, which takes whole pages. */
const LEAST_BYTES = 64 * 1024;

/**
 * The same plain data with its large typed arrays in memory that all workers see, so that a simulated
 * field of tens of megabytes is not copied for each of them. Arrays that view one buffer still do.
 * Anything but plain objects, arrays and typed arrays is left as it is, for the sending to judge.
 */
export function shareModel<T>(model: T): T {
  const made = new Map<object, unknown>();
  return shared(model, made) as T;
}

/**
 * Bytes of all arrays of numbers in plain data, each buffer counted once: what sending it would copy.
 *
 * @param lent Buffers that are not the model's own, and not counted.
 */
export function arrayBytes(model: unknown, lent: Iterable<object> = []): number {
  const seen = new Set<object>(lent);
  const waiting: unknown[] = [model];
  let bytes = 0;
  while (waiting.length > 0) {
    const value = waiting.pop();
    if (typeof value !== 'object' || value === null || seen.has(value)) continue;
    seen.add(value);
    if (ArrayBuffer.isView(value)) waiting.push(value.buffer);
    else if (value instanceof ArrayBuffer || value instanceof SharedArrayBuffer) bytes += value.byteLength;
    else if (value instanceof Map || value instanceof Set) waiting.push(...[...value].flat());
    else for (const inner of Object.values(value)) waiting.push(inner);
  }
  return bytes;
}

function shared(value: unknown, made: Map<object, unknown>): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const before = made.get(value);
  if (before !== undefined) return before;
  if (ArrayBuffer.isView(value)) return keep(made, value, sharedView(value, made));
  if (Array.isArray(value)) {
    const list: unknown[] = keep(made, value, []);
    for (const item of value) list.push(shared(item, made));
    return list;
  }
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  const object: Record<string, unknown> = keep(made, value, {});
  for (const [name, inner] of Object.entries(value)) object[name] = shared(inner, made);
  return object;
}

function sharedView(view: ArrayBufferView, made: Map<object, unknown>): ArrayBufferView {
  const { buffer, byteOffset, byteLength } = view;
  if (byteLength < LEAST_BYTES || !(buffer instanceof ArrayBuffer) || view instanceof DataView) return view;
  const block = (made.get(buffer) ?? keep(made, buffer, sharedCopy(buffer))) as SharedArrayBuffer;
  const View = view.constructor as Float32ArrayConstructor;
  return new View(block, byteOffset, byteLength / View.BYTES_PER_ELEMENT);
}

function sharedCopy(buffer: ArrayBuffer): SharedArrayBuffer {
  const block = new SharedArrayBuffer(buffer.byteLength);
  new Uint8Array(block).set(new Uint8Array(buffer));
  return block;
}

function keep<T>(made: Map<object, unknown>, from: object, to: T): T {
  made.set(from, to);
  return to;
}
