import type { RepeatPiece } from './repeat-piece.ts';

/** What part of the cloth is looked at. */
export interface View {
  /** The upper left corner, mm from the tile's. */
  readonly left: number;
  readonly top: number;
  /** Screen px (CSS) per mm. */
  readonly scale: number;
}

/** Device pixels to a CSS pixel, as far as they are worth their memory. */
export function screenRatio(): number {
  return Math.min(2, devicePixelRatio || 1);
}

/** Fits a canvas to its place on the screen. @returns Its size in device pixels. */
export function fitCanvas(canvas: HTMLCanvasElement): { width: number; height: number } {
  const ratio = screenRatio();
  const width = Math.max(1, Math.round(canvas.clientWidth * ratio));
  const height = Math.max(1, Math.round(canvas.clientHeight * ratio));
  if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height });
  return { width, height };
}

/** Fills a canvas with cloth. */
export function paintCloth(canvas: HTMLCanvasElement, piece: RepeatPiece, { left, top, scale }: View): void {
  const { width, height } = fitCanvas(canvas);
  const context = canvas.getContext('2d')!;
  const across = scale * (canvas.width / canvas.clientWidth);
  context.imageSmoothingQuality = 'high';
  context.fillStyle = clothPattern(context, piece, across, -left * across, -top * across);
  context.fillRect(0, 0, width, height);
}

/**
 * A piece laid beside itself without end.
 *
 * @param across Device px per mm.
 * @param x      Where its upper left corner lies, device px.
 */
export function clothPattern(
  context: CanvasRenderingContext2D,
  piece: RepeatPiece,
  across: number,
  x: number,
  y: number,
): CanvasPattern {
  const pattern = context.createPattern(piece.canvas, 'repeat')!;
  pattern.setTransform(new DOMMatrix([piece.mmPerPixelX * across, 0, 0, piece.mmPerPixelY * across, x, y]));
  return pattern;
}
