/** How far the shadow of the upper cloth falls, and how far its edge is rounded, CSS px. */
const SHADOW = 30;
const ROUNDING = 14;

/**
 * The turned-over edge of a cloth that lies on another: it darkens towards the fold, and its shadow falls on what
 * lies under it.
 *
 * @param edge  Device px from the left.
 * @param ratio Device px per CSS px.
 */
export function drawFold(
  context: CanvasRenderingContext2D,
  edge: number,
  height: number,
  ratio: number,
): void {
  const shade = (from: number, to: number, stops: readonly (readonly [number, string])[]) => {
    const gradient = context.createLinearGradient(from, 0, to, 0);
    for (const [at, colour] of stops) gradient.addColorStop(at, colour);
    context.fillStyle = gradient;
    context.fillRect(Math.min(from, to), 0, Math.abs(to - from), height);
  };
  // A browser goes on dithering what is drawn with a context that once drew a gradient.
  context.save();
  shade(edge, edge + SHADOW * ratio, [
    [0, 'rgb(20 16 10 / 0.45)'],
    [0.35, 'rgb(20 16 10 / 0.18)'],
    [1, 'rgb(20 16 10 / 0)'],
  ]);
  shade(edge - ROUNDING * ratio, edge, [
    [0, 'rgb(255 252 244 / 0)'],
    [0.55, 'rgb(255 252 244 / 0.14)'],
    [1, 'rgb(20 16 10 / 0.22)'],
  ]);
  context.restore();
}
