import type { Box } from 'tenter';
import { greatestCommonDivisor } from 'tenter';
import { countThreads, type Stripe, scaleOrder } from './order.ts';

/** One set of threads over a box. */
export interface Sett {
  /** Threads in the box. */
  readonly count: number;
  /** The order as it is woven. */
  readonly stripes: readonly Stripe[];
  /** Orders in the box, each read back as well where it is turned. */
  readonly orders: number;
  /** Threads after which the set comes back to itself when it is followed through the layout. */
  readonly loop: number;
  /** mm from thread to thread. */
  readonly pitch: number;
}

/** What is asked of a set of threads. */
export interface SettWish {
  readonly stripes: readonly Stripe[];
  readonly turned: boolean;
  readonly perMm: number;
  /** Threads in one repeat of the weave. */
  readonly weave: number;
}

/** Parts into which a layout divides the height of a box (a drop) or its width (a brick), 1 where it does not. */
export function partsOf({ layout }: Box, along: 'width' | 'height'): number {
  const moved = layout.kind === 'brick' ? 'width' : layout.kind === 'drop' ? 'height' : undefined;
  return moved === along && layout.numerator !== 0 ? layout.denominator : 1;
}

/** Deviations that weigh the same: of the density, of the size of the order, and of a stripe's share of it. */
const WEIGHTS = { density: 0.08, size: 0.2, share: 0.08 };

/**
 * The nearest threads that close over a length. Each of its `parts` holds whole orders and whole repeats of the
 * weave, so that a part further on is the same cloth: that is more than the weave alone needs, and just what the
 * colours do. Where whole orders of the asked threads do not fit, the stripes gain or lose a few.
 *
 * @param length Of the box, mm.
 * @param parts  From `partsOf`.
 */
export function snapSett({ stripes, turned, perMm, weave }: SettWish, length: number, parts: number): Sett {
  const times = turned ? 2 : 1;
  const asked = countThreads(stripes);
  const wanted = (perMm * length) / parts;
  let best = { miss: Number.POSITIVE_INFINITY, orders: 1, stripes };
  const most = Math.max(1, Math.ceil((1.6 * wanted) / (asked * times)));
  for (let orders = Math.max(1, Math.floor(most / 3)); orders <= most; orders++) {
    for (const threads of candidates(
      wanted / (orders * times),
      stripes.length,
      stepOf(weave, orders * times),
    )) {
      const scaled = scaleOrder(stripes, threads);
      const miss =
        square(Math.log((threads * orders * times) / wanted) / WEIGHTS.density) +
        square(Math.log(threads / asked) / WEIGHTS.size) +
        square(shareMiss(stripes, scaled) / WEIGHTS.share);
      if (miss < best.miss) best = { miss, orders, stripes: scaled };
    }
  }
  const part = countThreads(best.stripes) * best.orders * times;
  const count = part * parts;
  return { count, stripes: best.stripes, orders: best.orders * parts, loop: part, pitch: length / count };
}

/** Threads of an order must be a multiple of this for `orders` of them to hold whole weaves. */
function stepOf(weave: number, orders: number): number {
  return weave / greatestCommonDivisor(weave, orders);
}

/** Multiples of `step` around `ideal`, none below `least`. */
function candidates(ideal: number, least: number, step: number): number[] {
  const first = Math.ceil(least / step);
  const middle = Math.round(ideal / step);
  const reach = Math.max(2, Math.ceil(4 / step));
  const found: number[] = [];
  for (let k = Math.max(first, middle - reach); k <= Math.max(first, middle + reach); k++)
    found.push(k * step);
  return found;
}

/** Root of the mean squared error of the stripes' shares, in logarithms. */
function shareMiss(asked: readonly Stripe[], scaled: readonly Stripe[]): number {
  const factor = countThreads(scaled) / countThreads(asked);
  const errors = asked.map(({ threads }, index) =>
    square(Math.log(scaled[index].threads / (threads * factor))),
  );
  return Math.sqrt(errors.reduce((sum, error) => sum + error, 0) / errors.length);
}

function square(value: number): number {
  return value * value;
}
