import type { View } from '../../../collection/page/paint-cloth.ts';
import { canvasOf, type Piece } from './piece.ts';

/** Between two lines of the hatching, CSS px. */
const STEP = 9;
/** How much of the cloth the wash between the lines hides. */
const WASH = 0.14;
const LINE = 0.8;

/**
 * Lays hatching over what is covered: a light wash and thin lines, each with a pale one beside it, so that the
 * artwork is read between them, whatever its colours.
 */
export class Veil {
  readonly #sheet = canvasOf(1, 1);
  #hatching?: { readonly colours: string; readonly tile: HTMLCanvasElement };

  draw(context: CanvasRenderingContext2D, { left, top, scale }: View, piece: Piece): void {
    const { width, height } = context.canvas;
    const ratio = context.getTransform().a;
    if (this.#sheet.width !== width || this.#sheet.height !== height)
      Object.assign(this.#sheet, { width, height });
    const sheet = this.#sheet.getContext('2d')!;
    const { mmPerPixelX, mmPerPixelY } = piece.standing;
    const across = scale * ratio;
    const pattern = sheet.createPattern(piece.canvas, 'repeat')!;
    pattern.setTransform(
      new DOMMatrix([mmPerPixelX * across, 0, 0, mmPerPixelY * across, -left * across, -top * across]),
    );
    sheet.globalCompositeOperation = 'copy';
    sheet.fillStyle = pattern;
    sheet.fillRect(0, 0, width, height);
    sheet.globalCompositeOperation = 'source-in';
    sheet.fillStyle = sheet.createPattern(this.#hatch(ratio), 'repeat')!;
    sheet.fillRect(0, 0, width, height);
    context.drawImage(this.#sheet, 0, 0, width / ratio, height / ratio);
  }

  #hatch(ratio: number): HTMLCanvasElement {
    const style = getComputedStyle(document.documentElement);
    const [line, pale] = [
      style.getPropertyValue('--madder') || '#8f3522',
      style.getPropertyValue('--card') || '#fffdf8',
    ];
    const colours = `${line} ${pale} ${ratio}`;
    if (this.#hatching?.colours === colours) return this.#hatching.tile;
    const side = Math.round(STEP * ratio);
    const tile = canvasOf(side, side);
    const context = tile.getContext('2d')!;
    context.fillStyle = line;
    context.globalAlpha = WASH;
    context.fillRect(0, 0, side, side);
    context.globalAlpha = LINE;
    context.lineWidth = ratio;
    for (const [colour, aside] of [
      [pale, ratio * 1.4],
      [line, 0],
    ] as const) {
      context.strokeStyle = colour;
      context.beginPath();
      for (const from of [-side, 0, side]) {
        context.moveTo(from + aside - side, 2 * side);
        context.lineTo(from + aside + 2 * side, -side);
      }
      context.stroke();
    }
    this.#hatching = { colours, tile };
    return tile;
  }
}
