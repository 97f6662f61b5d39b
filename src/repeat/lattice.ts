import { type Layout, STRAIGHT } from './layout.ts';

/**
 * The two translations that leave a repeating picture unchanged:
 * `f(x + ax, y + ay) = f(x, y)` and `f(x + bx, y + by) = f(x, y)`.
 * Either `ay` (the drop) or `bx` (the brick offset) may be non-zero, not both. In mm or pixels.
 */
export interface Lattice {
  /** The first vector to the right, mm or pixels: the width of the box. */
  readonly ax: number;
  /** The first vector down the page, mm or pixels: the drop; 0 for a straight or brick layout. */
  readonly ay: number;
  /** The second vector to the right, mm or pixels: the brick offset; 0 for a straight or drop layout. */
  readonly bx: number;
  /** The second vector down the page, mm or pixels: the height of the box. */
  readonly by: number;
}

/** The lattice of a box of `width` x `height` in any unit; reflected layouts count as unfolded. */
export function latticeOf(layout: Layout, width: number, height: number): Lattice {
  const fraction = layout.numerator / layout.denominator;
  return {
    ax: width,
    ay: layout.kind === 'drop' ? height * fraction : 0,
    bx: layout.kind === 'brick' ? width * fraction : 0,
    by: height,
  };
}

/** How many tiles the smallest unreflected box holds, across and down. */
export function boxCount({ kind }: Layout): { readonly across: 1 | 2; readonly down: 1 | 2 } {
  const across = kind === 'mirror-x' || kind === 'mirror-xy' || kind === 'turn' ? 2 : 1;
  const down = kind === 'mirror-y' || kind === 'mirror-xy' ? 2 : 1;
  return { across, down };
}

/** The layout of the box once a reflected layout is unfolded: straight; the others stay as they are. */
export function unfoldedLayout(layout: Layout): Layout {
  const { across, down } = boxCount(layout);
  return across * down > 1 ? STRAIGHT : layout;
}

/**
 * The lattice copy of (x, y) inside the box 0 <= x < ax, 0 <= y < by.
 *
 * @param lattice In the unit of x and y.
 */
export function wrapPoint(lattice: Lattice, x: number, y: number): [number, number] {
  const { ax, ay, bx, by } = lattice;
  if (bx === 0) {
    const column = copyAt(x, ax);
    return [within(x - column * ax, ax), modulo(y - column * ay, by)];
  }
  const row = copyAt(y, by);
  return [modulo(x - row * bx, ax), within(y - row * by, by)];
}

/** In which copy of 0 <= r < size a value lies: the quotient may round onto the next one, or its rest may. */
function copyAt(value: number, size: number): number {
  const copy = Math.floor(value / size);
  const rest = value - copy * size;
  if (rest >= size) return copy + 1;
  // A hair before an edge is the edge where no number lies between.
  return rest < 0 && rest + size < size ? copy - 1 : copy;
}

/** Of a rest that missed 0 <= r < size by a hair, the edge; any other as it is. */
function within(rest: number, size: number): number {
  return rest < 0 || rest >= size ? 0 : rest;
}

/**
 * The shortest of a vector's copies: what lies between two points of a repeating plane, the nearest way.
 *
 * @param lattice In the unit of x and y; its box at most five times as long as wide, either way.
 */
export function shortestWay({ ax, ay, bx, by }: Lattice, x: number, y: number): [number, number] {
  const found: [number, number] = [x, y];
  let least = Number.POSITIVE_INFINITY;
  // Of the copies in one column of a drop (one row of a brick) only the nearest counts.
  const home = bx === 0 ? Math.round(x / ax) : Math.round(y / by);
  for (let other = home - 2; other <= home + 2; other++) {
    const m = bx === 0 ? other : Math.round((x - other * bx) / ax);
    const n = bx === 0 ? Math.round((y - other * ay) / by) : other;
    const [dx, dy] = [x - m * ax - n * bx, y - m * ay - n * by];
    if (dx * dx + dy * dy >= least) continue;
    least = dx * dx + dy * dy;
    found[0] = dx;
    found[1] = dy;
  }
  return found;
}

/** The remainder with the sign of the divisor: always in 0 <= r < size. */
export function modulo(value: number, size: number): number {
  return within(value - copyAt(value, size) * size, size);
}
