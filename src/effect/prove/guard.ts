import { type AnyLayer, neutralLayer, type PlaneName } from '../layer.ts';

/** Numbers before and after each plane that nothing may touch. */
const ZONE = 256;
/** An arbitrary value that no effect would write by chance. */
const UNTOUCHED = Math.fround(-8675.309);

/** A write outside a plane. */
export interface Stray {
  readonly plane: PlaneName;
  /** Of the plane's numbers; may be negative, or no whole number. */
  readonly index: number;
}

/** A layer that notices writes outside its planes. */
export interface GuardedLayer {
  readonly layer: AnyLayer;
  /** The first write outside each plane. */
  strays(): Stray[];
}

/**
 * A neutral layer whose planes lie between guard zones of one buffer, as they do in the host, which
 * uses memory again. Writes past the end by index, which JavaScript drops without a word, are noticed too.
 */
export function guardedLayer(planes: readonly PlaneName[], width: number, height: number): GuardedLayer {
  const found = new Map<PlaneName, Stray>();
  const blocks: { plane: PlaneName; block: Float32Array; length: number }[] = [];
  const guarded: Record<string, Float32Array> = {};
  const neutral = neutralLayer(planes, width, height);
  for (const plane of planes) {
    const { length } = neutral[plane]!;
    const block = new Float32Array(length + 2 * ZONE).fill(UNTOUCHED);
    const view = block.subarray(ZONE, ZONE + length);
    view.set(neutral[plane]!);
    blocks.push({ plane, block, length });
    guarded[plane] = noticing(view, (index) => {
      if (!found.has(plane)) found.set(plane, { plane, index });
    });
  }
  return {
    layer: { width, height, ...guarded },
    strays() {
      for (const { plane, block, length } of blocks) {
        const at = block.findIndex(
          (value, k) => (k < ZONE || k >= ZONE + length) && !Object.is(value, UNTOUCHED),
        );
        if (at >= 0 && !found.has(plane)) found.set(plane, { plane, index: at - ZONE });
      }
      return [...found.values()];
    },
  };
}

/** The view, telling of every write to a number that it does not have. */
function noticing(view: Float32Array, onStray: (index: number) => void): Float32Array {
  return new Proxy(view, {
    get(target, key) {
      const value = Reflect.get(target, key, target);
      return typeof value === 'function' && key !== 'constructor' ? value.bind(target) : value;
    },
    set(target, key, value) {
      const index = typeof key === 'string' ? Number(key) : Number.NaN;
      const isNumbered = typeof key === 'string' && (key === 'NaN' || !Number.isNaN(index));
      if (isNumbered && !(Number.isInteger(index) && index >= 0 && index < target.length)) onStray(index);
      return Reflect.set(target, key, value, target);
    },
  });
}
