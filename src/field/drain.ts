import { Fault } from '../fault.ts';
import { eightAround, inverseDistances } from './eight-around.ts';
import type { Arrivals } from './march.ts';
import type { FieldShape } from './periodic.ts';

export interface DrainOptions {
  /**
   * How strongly a cell prefers its steepest way: its content is shared among the neighbours that were
   * reached before it by slope^concentration. 1 spreads it (P. Quinn et al. 1991), 2 and more gathers
   * it into streams. Default 2.
   */
  readonly concentration?: number;
}

/**
 * What passes through each cell when every cell's content runs back along the way the front came:
 * the streams of a first-passage tree, thin at their tips and broad towards the seed.
 *
 * @param content Per cell, what starts there; 0 or more. A cell that was not reached keeps its own.
 * @returns Per cell its own content and all that came through it from later cells. What arrives at
 *   the cells with no earlier neighbour adds up to the whole content.
 * @throws Fault (effect) where `content` is not one number per cell.
 */
export function drainUpwind(
  shape: FieldShape,
  { times, order }: Arrivals,
  content: Float32Array,
  { concentration = 2 }: DrainOptions = {},
): Float32Array {
  if (content.length !== times.length) throw mismatch(times.length, content.length);
  const through = Float64Array.from(content);
  const around = new Int32Array(8);
  const shares = new Float64Array(8);
  const nearness = inverseDistances(shape);
  for (let k = order.length - 1; k >= 0; k--) {
    const cell = order[k];
    if (through[cell] === 0) continue;
    eightAround(shape, cell, around);
    let sum = 0;
    for (let n = 0; n < 8; n++) {
      const slope = (times[cell] - times[around[n]]) * nearness[n];
      shares[n] = slope > 0 ? (concentration === 2 ? slope * slope : slope ** concentration) : 0;
      sum += shares[n];
    }
    if (!(sum > 0)) continue;
    const unit = through[cell] / sum;
    for (let n = 0; n < 8; n++) if (shares[n] > 0) through[around[n]] += unit * shares[n];
  }
  return Float32Array.from(through);
}

function mismatch(expected: number, received: number): Fault {
  return new Fault({
    kind: 'effect',
    expected: `${expected} numbers, one per cell`,
    subject: 'the content to drain',
    received: String(received),
    remedy: 'Bake it on the shape that was marched over.',
  });
}
