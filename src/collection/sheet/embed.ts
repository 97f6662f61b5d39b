import { fitGrid } from '../../repeat/index.ts';
import { densityOf, repeatOf } from './scale.ts';
import { rawOf, type SmallPicture, shrinkSmall } from './small-picture.ts';
import type { Shown } from './swatch.ts';

/** Longest side of a picture in the page, px: what a large screen shows of one tile. */
const LONGEST = 1400;
/** WebP; a woven ground shows no blocks from here on. */
const QUALITY = 80;
/** A first guess at the bytes of one pixel. */
const FIRST_BYTES_PER_PIXEL = 0.3;
/** Base64 makes four letters of three bytes (RFC 4648). */
const LETTERS_PER_BYTE = 4 / 3;
/** The least letters for which a picture is worth showing. */
export const LEAST_PER_PICTURE = 1500;

/** Shares the room that a page has for pictures among them, and keeps to it. */
export class PictureRoom {
  readonly #letters: number;
  #left: number;
  #used = 0;
  #bytesPerPixel = FIRST_BYTES_PER_PIXEL;

  /**
   * @param letters For all pictures together, as Base64.
   * @param count   Pictures to come.
   */
  constructor(letters: number, count: number) {
    this.#letters = letters;
    this.#left = count;
  }

  get used(): number {
    return this.#used;
  }

  /** Pixels per mm at which this picture will about fit; no more than it has. */
  densityFor(shown: Shown): number {
    const { widthMm, heightMm } = shown.picture;
    const pixels = this.#bytes / this.#bytesPerPixel;
    const longest = LONGEST / Math.max(widthMm, heightMm);
    return Math.min(densityOf(shown), longest, Math.sqrt(pixels / (widthMm * heightMm)));
  }

  /** The picture as WebP in Base64; smaller and smaller until it fits into its share. */
  async take(small: SmallPicture, shown: Shown): Promise<string> {
    let density = this.densityFor(shown);
    for (;;) {
      const tried = await shrinkSmall(small, density);
      const { tileWidth, tileHeight, repeat } = tried.grid;
      const webp = await rawOf(tried).webp({ quality: QUALITY }).toBuffer();
      this.#bytesPerPixel = (1.05 * webp.length) / (tileWidth * tileHeight);
      const next = density * Math.min(0.9, 0.95 * Math.sqrt(this.#bytes / webp.length));
      const smaller = fitGrid(repeat, next);
      const isLeast = smaller.tileWidth === tileWidth && smaller.tileHeight === tileHeight;
      if (webp.length <= this.#bytes || isLeast) return this.#keep(webp);
      density = next;
    }
  }

  /** A picture that could not be read leaves its share to the others. */
  pass(): void {
    this.#left--;
  }

  get #bytes(): number {
    return (this.#letters - this.#used) / Math.max(1, this.#left) / LETTERS_PER_BYTE - 3;
  }

  #keep(webp: Buffer): string {
    const text = webp.toString('base64');
    this.#used += text.length;
    this.#left--;
    return text;
  }
}

/** The repeat of a picture as the page needs it: plain numbers. */
export function clothOf(shown: Shown): { layout: string; widthMm: number; heightMm: number } {
  const { width, height } = repeatOf(shown);
  return { layout: shown.picture.layout, widthMm: width, heightMm: height };
}
