import type { View } from '../../../collection/page/paint-cloth.ts';
import type { Brush } from './brush-hand.ts';

/** Draws the brush at its size, CSS px: dashed where it takes away, with a finer ring where it begins to fade. */
export function drawRing(
  context: CanvasRenderingContext2D,
  { left, top, scale }: View,
  place: { readonly x: number; readonly y: number },
  { width, softness, erases }: Brush,
): void {
  const [x, y] = [(place.x - left) * scale, (place.y - top) * scale];
  const radius = Math.max(1.5, (width / 2) * scale);
  const style = getComputedStyle(document.documentElement);
  const draw = (size: number, colour: string, line: number) => {
    context.strokeStyle = colour;
    context.lineWidth = line;
    context.beginPath();
    context.arc(x, y, size, 0, 2 * Math.PI);
    context.stroke();
  };
  draw(radius, style.getPropertyValue('--card') || '#fffdf8', 3);
  context.setLineDash(erases ? [6, 4] : []);
  draw(radius, style.getPropertyValue('--ink') || '#2d2b27', 1.25);
  context.setLineDash([1, 3]);
  if (softness > 0 && softness < 1) draw(radius * (1 - softness), style.getPropertyValue('--ink'), 1);
  context.setLineDash([]);
}
