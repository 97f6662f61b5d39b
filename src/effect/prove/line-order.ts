import type { Channel } from './channels.ts';
import type { Edge } from './edge-view.ts';

/** px: what is nearer than this is alike because it is smooth. */
const LEAST_LAG = 4;

/**
 * How regular each line along an edge is: the most that it has in common with itself some way further on, as a
 * coefficient of correlation. Threads that stray everywhere and stand even in one line make that line regular.
 */
export function orderOfLines({ values, width, height }: Channel, edge: Edge): Float64Array {
  const [count, along, step, stride] =
    edge === 'left and right' ? [width, height, 1, width] : [height, width, width, 1];
  return Float64Array.from({ length: count }, (_, line) => {
    const own = Float64Array.from({ length: along }, (_, k) => values[line * step + k * stride]);
    return mostAlike(own);
  });
}

/** The largest autocorrelation of a line that runs on from its end to its start, at any lag but the least; 0 where it is flat. */
function mostAlike(line: Float64Array): number {
  const mean = line.reduce((sum, value) => sum + value, 0) / line.length;
  const about = line.map((value) => value - mean);
  const power = about.reduce((sum, value) => sum + value * value, 0);
  if (!(power > 0)) return 0;
  let most = 0;
  for (let lag = LEAST_LAG; lag <= line.length >> 1; lag++) {
    let sum = 0;
    for (let k = 0; k < line.length; k++) sum += about[k] * about[(k + lag) % line.length];
    most = Math.max(most, sum);
  }
  return most / power;
}
