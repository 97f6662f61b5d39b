/** A straight piece of a stroke: all dabs of the brush between two. In mm of the tile. */
export interface DabLine {
  readonly x0: number;
  readonly y0: number;
  readonly radius0: number;
  readonly x1: number;
  readonly y1: number;
  readonly radius1: number;
  /** 0 a crisp edge .. 1 soft from the middle on. */
  readonly softness: number;
  /** True where the line before laid the first dab already. */
  readonly goesOn: boolean;
}

/** How much of a place is covered, 0..1. */
export type Cover = (x: number, y: number) => number;

/**
 * Opens the cover of a line of dabs, each of which is 1 from its middle to `radius * (1 - softness)` and falls
 * smoothly (3t^2 - 2t^3) to 0 at `radius`. A place takes the most that any of them gives: the one to which its
 * distance is least in radii, for which there is a closed form.
 *
 * The profile is averaged over a pixel's width along the way to that dab, so that a crisp edge is smooth, a brush
 * thinner than a pixel fainter, and a soft one the same at any density. Nothing but + - * / and the square root,
 * which IEEE 754 rounds alike everywhere: the same bytes in every browser and in Node.
 *
 * @param pixel Side of a pixel, mm.
 */
export function openCover(line: DabLine, pixel: number): Cover {
  const { x0, y0, radius0, radius1, softness } = line;
  const [dx, dy] = [line.x1 - x0, line.y1 - y0];
  const length = Math.sqrt(dx * dx + dy * dy);
  const [ux, uy] = length > 0 ? [dx / length, dy / length] : [1, 0];
  const growth = length > 0 ? (radius1 - radius0) / length : 0;
  return (x, y) => {
    const along = (x - x0) * ux + (y - y0) * uy;
    const aside = (y - y0) * ux - (x - x0) * uy;
    const at = likeliest(along, aside, length, radius0, growth);
    const radius = radius0 + growth * at;
    const away = Math.sqrt((at - along) * (at - along) + aside * aside);
    return meanOver(away, pixel, radius * (1 - softness), radius);
  };
}

/**
 * How far along the line the dab lies to which a place is nearest in radii.
 *
 * The square of distance / radius has the derivative (t - along)(r0 + g along) - g aside^2 over t, but for factors
 * above 0: linear in t. Where it rises its root is the least; where it falls one of the ends is.
 */
function likeliest(along: number, aside: number, length: number, radius0: number, growth: number): number {
  const rise = radius0 + growth * along;
  if (rise > 0) return Math.min(length, Math.max(0, along + (growth * aside * aside) / rise));
  const radius1 = radius0 + growth * length;
  const fromFirst = along * along + aside * aside;
  const fromLast = (along - length) * (along - length) + aside * aside;
  return fromFirst * radius1 * radius1 <= fromLast * radius0 * radius0 ? 0 : length;
}

/** The mean of a dab's profile over a pixel's width, `away` from its middle. */
function meanOver(away: number, pixel: number, core: number, radius: number): number {
  if (away + pixel / 2 <= core) return 1;
  if (away - pixel / 2 >= radius) return 0;
  return (integral(away + pixel / 2, core, radius) - integral(away - pixel / 2, core, radius)) / pixel;
}

/** Of the profile from the middle to `away`, which may lie on the other side. */
function integral(away: number, core: number, radius: number): number {
  if (away < 0) return -integral(-away, core, radius);
  if (away <= core) return away;
  const fade = radius - core;
  if (away >= radius) return core + fade / 2;
  const t = (away - core) / fade;
  return core + fade * (t - t * t * t + (t * t * t * t) / 2);
}

/** What of a row lies within `reach` of a line of dabs, from and to, mm; none where nothing does. */
export function reachedOf(line: DabLine, reach: number, y: number): readonly [number, number] | undefined {
  const { x0, y0, x1, y1 } = line;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  const take = (x: number) => {
    if (x < from) from = x;
    if (x > to) to = x;
  };
  const takeDisc = (x: number, middle: number) => {
    const rest = reach * reach - (y - middle) * (y - middle);
    if (rest < 0) return;
    take(x - Math.sqrt(rest));
    take(x + Math.sqrt(rest));
  };
  takeDisc(x0, y0);
  takeDisc(x1, y1);
  const [dx, dy] = [x1 - x0, y1 - y0];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length > 0 && dy !== 0) {
    // The two straight edges between the discs.
    for (const side of [reach / length, -reach / length]) {
      const t = (y - (y0 + dx * side)) / dy;
      if (t >= 0 && t <= 1) take(x0 - dy * side + t * dx);
    }
  }
  return ahead(line, reach, y, from, to);
}

/** Of what is reached the part that the line's first dab, laid already, does not cover best. */
function ahead(
  line: DabLine,
  reach: number,
  y: number,
  from: number,
  to: number,
): readonly [number, number] | undefined {
  const { x0, y0, radius0, goesOn } = line;
  const [dx, dy] = [line.x1 - x0, line.y1 - y0];
  const length = dx * dx + dy * dy;
  if (goesOn && length > 0 && radius0 > 0) {
    // r0 along + g (along^2 + aside^2) <= 0 where the first dab is the likeliest; what is reached bounds the squares.
    const widening = Math.max(0, line.radius1 - radius0);
    const least = (-widening * reach * reach) / radius0 - (y - y0) * dy;
    if (dx > 0) from = Math.max(from, x0 + least / dx);
    else if (dx < 0) to = Math.min(to, x0 + least / dx);
    else if (least > 0) return undefined;
  }
  return from <= to ? [from, to] : undefined;
}
