import type { Allot } from '../../render/frame.ts';
import type { Blocks } from './blocks.ts';

/** The memory of one render: taken block by block, given back together. */
export class LentBlocks {
  readonly #blocks: Blocks;
  readonly #taken: SharedArrayBuffer[] = [];

  constructor(blocks: Blocks) {
    this.#blocks = blocks;
  }

  readonly allot: Allot = (pixels, length) => {
    const block = this.#blocks.take(length * pixels.BYTES_PER_ELEMENT);
    this.#taken.push(block);
    return pixels.BYTES_PER_ELEMENT === 2 ? new Uint16Array(block) : new Uint8Array(block);
  };

  /** Once nobody reads or writes any of it, and its memory was given back. */
  giveBack(): void {
    for (const block of this.#taken.splice(0)) this.#blocks.giveBack(block);
  }
}
