import { openPicture, type Packed } from './picture.ts';
import { layPiece, type RepeatPiece } from './repeat-piece.ts';

/** A picture that is looked at from near by and further off. */
export class Sight {
  #packed?: Packed;
  #picture?: ImageBitmap;
  #piece?: RepeatPiece & { readonly level: number };

  async open(packed: Packed | undefined): Promise<void> {
    this.#packed = packed;
    if (packed) this.#picture = await openPicture(packed);
  }

  close(): void {
    this.#picture?.close();
    this.#picture = undefined;
    this.#piece = undefined;
  }

  /**
   * Halves and quarters of the picture are drawn; between two of them the last one serves.
   *
   * @param scale Device pixels per mm.
   * @returns None until it is open.
   */
  pieceFor(scale: number): RepeatPiece | undefined {
    if (!this.#picture) return undefined;
    const level = Math.ceil(Math.log2(scale));
    if (this.#piece?.level !== level) {
      this.#piece = { ...layPiece(this.#picture, this.#packed!.cloth, 2 ** level), level };
    }
    return this.#piece;
  }
}
