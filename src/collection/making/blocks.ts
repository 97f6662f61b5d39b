import type { Kept, Memory } from './memory.ts';

/**
 * Shared memory that is used again. A picture's block that is let go is freed late, since every thread
 * that saw it has to let go as well; a thousand renders would pile up.
 */
export class Blocks {
  readonly #memory: Memory;
  readonly #free = new Map<number, { readonly block: SharedArrayBuffer; readonly kept: Kept }[]>();

  constructor(memory: Memory) {
    this.#memory = memory;
  }

  /** A block whose memory must have been taken; what it holds is left over from before. */
  take(bytes: number): SharedArrayBuffer {
    const found = this.#free.get(bytes)?.at(-1);
    if (!found) return new SharedArrayBuffer(bytes);
    this.#memory.forget(found.kept);
    return found.block;
  }

  /** Takes back a block that nobody uses any more, and whose memory was given back; it is kept where there is room. */
  giveBack(block: SharedArrayBuffer): void {
    const bytes = block.byteLength;
    if (!this.#memory.takeFree(bytes)) return;
    const list = this.#free.get(bytes) ?? [];
    const entry = {
      block,
      kept: { bytes, isUsed: false, drop: () => void list.splice(list.indexOf(entry), 1) },
    };
    list.push(entry);
    this.#free.set(bytes, list);
    this.#memory.keep(entry.kept);
  }
}
