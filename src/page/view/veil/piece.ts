import { boxCount, type Layout, reflectionAt } from '../../../repeat/index.ts';
import type { PixelRectangle } from '../../resist/index.ts';

/** How a picture stands on the cloth. */
export interface Standing {
  readonly layout: Layout;
  /** Of the picture, px. */
  readonly width: number;
  readonly height: number;
  readonly mmPerPixelX: number;
  readonly mmPerPixelY: number;
}

/** How many copies of the picture stand in the smallest piece that repeats straight. */
export function copiesOf(layout: Layout): { readonly across: number; readonly down: number } {
  const { across, down } = boxCount(layout);
  return {
    across: layout.kind === 'drop' ? layout.denominator : across,
    down: layout.kind === 'brick' ? layout.denominator : down,
  };
}

/** How much of every pixel of the cloth is covered, kept as a piece that repeats straight and mended bit by bit. */
export class Piece {
  readonly canvas: HTMLCanvasElement;
  readonly standing: Standing;
  readonly #context: CanvasRenderingContext2D;
  readonly #tile: HTMLCanvasElement;

  constructor(standing: Standing) {
    const { width, height, layout } = standing;
    const { across, down } = copiesOf(layout);
    this.standing = standing;
    this.canvas = canvasOf(width * across, height * down);
    this.#context = this.canvas.getContext('2d')!;
    this.#tile = canvasOf(width, height);
  }

  /** Shows what part of the covers has become. @param covers 0..255 each pixel of the picture. */
  put(covers: Uint8Array, part: PixelRectangle): void {
    const { left, top, width, height } = part;
    if (width <= 0 || height <= 0) return;
    const image = new ImageData(width, height);
    for (let row = 0, at = 3; row < height; row++) {
      const first = (top + row) * this.standing.width + left;
      for (let column = 0; column < width; column++, at += 4) image.data[at] = covers[first + column];
    }
    this.#tile.getContext('2d')!.putImageData(image, left, top);
    const { across, down } = copiesOf(this.standing.layout);
    for (let row = 0; row < down; row++)
      for (let column = 0; column < across; column++) this.#lay(part, column, row);
  }

  /** What a drop or brick pushes over the edge of the piece comes in at the other. */
  #lay({ left, top, width, height }: PixelRectangle, column: number, row: number): void {
    const { layout, width: tileWidth, height: tileHeight } = this.standing;
    const shift = layout.numerator / layout.denominator;
    const x = layout.kind === 'brick' ? Math.round(row * shift * tileWidth) % tileWidth : column * tileWidth;
    const y =
      layout.kind === 'drop' ? Math.round(column * shift * tileHeight) % tileHeight : row * tileHeight;
    const { flipX, flipY } = reflectionAt(layout, column, row);
    for (const atX of layout.kind === 'brick' ? [x, x - tileWidth] : [x]) {
      for (const atY of layout.kind === 'drop' ? [y, y - tileHeight] : [y]) {
        this.#context.setTransform(
          flipX ? -1 : 1,
          0,
          0,
          flipY ? -1 : 1,
          flipX ? atX + tileWidth : atX,
          flipY ? atY + tileHeight : atY,
        );
        this.#context.clearRect(left, top, width, height);
        this.#context.drawImage(this.#tile, left, top, width, height, left, top, width, height);
      }
    }
  }
}

/** The smallest rectangle around some; none around none. */
export function around(parts: readonly PixelRectangle[]): PixelRectangle | undefined {
  if (parts.length === 0) return undefined;
  const left = Math.min(...parts.map((part) => part.left));
  const top = Math.min(...parts.map((part) => part.top));
  const right = Math.max(...parts.map((part) => part.left + part.width));
  const bottom = Math.max(...parts.map((part) => part.top + part.height));
  return { left, top, width: right - left, height: bottom - top };
}

export function canvasOf(width: number, height: number): HTMLCanvasElement {
  return Object.assign(document.createElement('canvas'), { width, height });
}
