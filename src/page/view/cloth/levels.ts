import {
  canvasOf,
  type Drawable,
  layOut,
  MOST_PIXELS,
  piecesOf,
  type RepeatPiece,
} from '../../../collection/page/repeat-piece.ts';
import { type Layout, parseLayout, pixelStep } from '../../../repeat/index.ts';
import { nearestMultiple } from '../../../repeat/multiple.ts';
import type { Shown } from './cloth.ts';
import { type Pixels, reduced } from './reduce.ts';

/** A look, and halves, quarters ... of it for views from further off; each is made when it is first drawn. */
export class Levels {
  readonly #shown: Shown;
  readonly #layout: Layout;
  readonly #isLaid: boolean;
  readonly #pieces = new Map<number, RepeatPiece>();
  readonly #pixels = new Map<number, Pixels>();

  /** @param isLaid Whether pieces are laid out to repeat straight, as a period is; a part stays one. */
  constructor(shown: Shown, isLaid: boolean) {
    this.#shown = shown;
    this.#isLaid = isLaid;
    this.#layout = parseLayout(shown.look.layout);
  }

  /** The piece whose samples are nearest to pixels. @param across Device px per mm. */
  pieceFor(across: number): RepeatPiece {
    const level = this.#levelFor(across);
    const known = this.#pieces.get(level);
    if (known) return known;
    const made = this.#make(level);
    this.#pieces.set(level, made);
    return made;
  }

  #levelFor(across: number): number {
    const { width, height } = this.#shown.picture;
    const pixelsPerSample = (across * this.#shown.look.part.width) / width;
    const most = Math.floor(Math.log2(Math.min(width, height)));
    let level = Math.min(most, Math.max(0, Math.round(-Math.log2(pixelsPerSample))));
    while (this.#roomOf(level) > MOST_PIXELS) level++;
    return level;
  }

  /** px of a piece. */
  #roomOf(level: number): number {
    const { width, height } = this.#sizeOf(level);
    const { across, down } = piecesOf(this.#layout);
    return this.#isLaid ? width * height * across * down : 0;
  }

  #sizeOf(level: number): { width: number; height: number } {
    const { width, height } = this.#shown.picture;
    const step = this.#isLaid ? pixelStep(this.#layout) : { across: 1, down: 1 };
    return {
      width: nearestMultiple(width / 2 ** level, step.across),
      height: nearestMultiple(height / 2 ** level, step.down),
    };
  }

  #make(level: number): RepeatPiece {
    const tile = this.#pictureAt(level);
    const { part } = this.#shown.look;
    const isStraight = !this.#isLaid || this.#layout.kind === 'straight';
    return {
      canvas: isStraight ? tile : layOut(tile, this.#layout),
      mmPerPixelX: part.width / tile.width,
      mmPerPixelY: part.height / tile.height,
    };
  }

  #pictureAt(level: number): Drawable {
    const { picture } = this.#shown;
    const { width, height } = this.#sizeOf(level);
    if (width === picture.width && height === picture.height) return picture;
    const { data } = this.#pixelsAt(level);
    const canvas = canvasOf(width, height);
    canvas.getContext('2d')!.putImageData(new ImageData(data, width, height), 0, 0);
    return canvas;
  }

  /** Of the last finer level that was made, else of the picture itself. */
  #pixelsAt(level: number): Pixels {
    const finer = [...this.#pixels.keys()].filter((known) => known < level).sort((a, b) => b - a)[0];
    const from = finer === undefined ? pixelsOf(this.#shown.picture) : this.#pixels.get(finer)!;
    const { width, height } = this.#sizeOf(level);
    const made = reduced(from, width, height);
    this.#pixels.set(level, made);
    return made;
  }
}

function pixelsOf(picture: Drawable): Pixels {
  const { width, height } = picture;
  const canvas = canvasOf(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  context.drawImage(picture, 0, 0);
  return context.getImageData(0, 0, width, height) as Pixels;
}
