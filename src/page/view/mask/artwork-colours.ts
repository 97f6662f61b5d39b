import { colourDifference, formatHex, parseHex } from '../../../colour/index.ts';
import { type ColourMask, colourOfBytes, labOfColour, maskShare } from '../../../composite/index.ts';
import { latticeOf, parseLayout, wrapPoint } from '../../../repeat/index.ts';

/** One period of the bare artwork, as a look without steps brings it. */
export interface Artwork {
  /** Straight RGBA, sRGB. */
  readonly pixels: Uint8Array | Uint8ClampedArray;
  /** px */
  readonly width: number;
  readonly height: number;
  /** mm */
  readonly widthMm: number;
  readonly heightMm: number;
  /** How whole periods stand: straight, drop:p/q or brick:p/q. */
  readonly layout: string;
  /** `#rrggbb` that shows through translucent artwork. */
  readonly paper: string;
}

/**
 * The colours of an artwork, each measured once against a mask's colours: while its tolerance or softness is dragged
 * nothing but a table is filled. Comes to the very numbers of the host's mask.
 */
export class ArtworkColours {
  readonly #artwork: Artwork;
  /** Distinct 24-bit colours, and which of them each pixel is. */
  readonly #colours: readonly number[];
  readonly #indexes: Uint32Array;
  /** CIEDE2000 of every distinct colour to the nearest of `#measured`. */
  #differences = new Float64Array(0);
  #measured: readonly string[] = [];

  constructor(artwork: Artwork) {
    const paper = parseHex(artwork.paper);
    const pixels = artwork.pixels as Uint8Array;
    const known = new Map<number, number>();
    this.#artwork = artwork;
    this.#indexes = new Uint32Array(artwork.width * artwork.height);
    let [before, at] = [-1, 0];
    for (let pixel = 0; pixel < this.#indexes.length; pixel++) {
      const colour = colourOfBytes(pixels, pixel * 4, paper);
      if (colour !== before) {
        at = known.get(colour) ?? known.size;
        known.set(colour, at);
        before = colour;
      }
      this.#indexes[pixel] = at;
    }
    this.#colours = [...known.keys()];
  }

  /** `#rrggbb` at a place of the plane, mm. */
  at(x: number, y: number): string {
    const { width, height, widthMm, heightMm, layout } = this.#artwork;
    const [atX, atY] = wrapPoint(latticeOf(parseLayout(layout), widthMm, heightMm), x, y);
    const column = Math.min(width - 1, Math.floor((atX / widthMm) * width));
    const row = Math.min(height - 1, Math.floor((atY / heightMm) * height));
    const colour = this.#colours[this.#indexes[row * width + column]];
    return formatHex([(colour >> 16) / 255, ((colour >> 8) & 255) / 255, (colour & 255) / 255]);
  }

  /** Where a mask lies, each pixel 0..1. */
  shares(mask: Omit<ColourMask, 'colours' | 'paper'>, colours: readonly string[]): Float32Array {
    const table = this.#tableOf(mask, colours);
    return Float32Array.from(this.#indexes, (index) => table[index]);
  }

  /** The same in 0..255. */
  covers(mask: Omit<ColourMask, 'colours' | 'paper'>, colours: readonly string[]): Uint8Array {
    const table = Uint8Array.from(this.#tableOf(mask, colours), (share) => Math.round(255 * share));
    const covers = new Uint8Array(this.#indexes.length);
    for (let pixel = 0; pixel < covers.length; pixel++) covers[pixel] = table[this.#indexes[pixel]];
    return covers;
  }

  #tableOf(mask: Omit<ColourMask, 'colours' | 'paper'>, colours: readonly string[]): Float32Array {
    this.#measure(colours);
    return Float32Array.from(this.#differences, (difference) => maskShare(difference, mask));
  }

  /** A colour more is measured alone; where one was taken away all are. */
  #measure(colours: readonly string[]): void {
    const isMore = this.#differences.length > 0 && this.#measured.every((colour) => colours.includes(colour));
    const missing = isMore ? colours.filter((colour) => !this.#measured.includes(colour)) : colours;
    if (!isMore) this.#differences = new Float64Array(this.#colours.length).fill(Number.POSITIVE_INFINITY);
    for (const colour of missing) {
      const wanted = labOfColour(Number.parseInt(colour.slice(1), 16));
      for (let at = 0; at < this.#colours.length; at++) {
        const difference = colourDifference(wanted, labOfColour(this.#colours[at]));
        if (difference < this.#differences[at]) this.#differences[at] = difference;
      }
    }
    this.#measured = [...colours];
  }
}
