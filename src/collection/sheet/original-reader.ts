import type { SmallOrReason } from './sheet-stack.ts';
import { readOriginal } from './small-picture.ts';
import type { Original } from './swatch.ts';

/** Reads artwork, each once for all renders of it that follow one another. */
export class OriginalReader {
  #last?: { readonly key: string; readonly density: number; readonly small: SmallOrReason };

  /** Its picture, at this many pixels per mm or more where it has them, or why there is none. */
  async read(original: Original, density: number): Promise<SmallOrReason> {
    const { key } = original;
    if (this.#last?.key === key && this.#last.density >= density) return this.#last.small;
    const small = await readOriginal(original, density).catch(
      (error: Error) => `the artwork cannot be read: ${error.message.trim()}`,
    );
    this.#last = { key, density, small };
    return small;
  }
}
