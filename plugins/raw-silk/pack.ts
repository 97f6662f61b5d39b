import { type FieldShape, linesAlong } from 'tenter';

/** Picks over which the reed and the neighbours take up what a thick place needs. */
const GIVE = 6;
/** Below this share of an even pick's room a pick yields less and less. */
const STIFF = 0.5;

/**
 * Where the picks lie when each takes room by its thickness: a slub shoulders its neighbours aside and
 * presses them thinner, and a few picks further on the cloth is even again.
 *
 * The room of a pick is what it is thicker than the mean around it, so that what one takes the others
 * give and nothing moves farther off; it stays above 0 whatever the slubs, so picks never cross. Room is
 * counted down each column, which closes over the repeat.
 *
 * @param thickness Above 0, one number for each cell of `shape`.
 * @returns mm by which the upper edge of each cell's pick is moved from its even place.
 */
export function packPicks(thickness: Float32Array, shape: FieldShape): Float32Array {
  const moved = new Float32Array(thickness.length);
  const { count, length, cells } = linesAlong(shape, 'y');
  const line = new Float64Array(length);
  const around = new Float64Array(length);
  for (let n = 0; n < count; n++) {
    for (let k = 0; k < length; k++) line[k] = thickness[cells[n * length + k]];
    meanAround(line, around);
    let sum = 0;
    for (let k = 0; k < length; k++) {
      line[k] = roomOf(1 + line[k] - around[k]);
      sum += line[k];
    }
    let edge = 0;
    let mean = 0;
    for (let k = 0; k < length; k++) {
      around[k] = edge - k;
      mean += around[k] / length;
      edge += (line[k] * length) / sum;
    }
    for (let k = 0; k < length; k++) moved[cells[n * length + k]] = (around[k] - mean) * shape.mmPerCellY;
  }
  return moved;
}

function roomOf(wanted: number): number {
  return wanted > STIFF ? wanted : STIFF * Math.exp(wanted / STIFF - 1);
}

/** The mean of a closed line around each place, weighted by exp(-distance / GIVE). */
function meanAround(line: Float64Array, to: Float64Array): void {
  const { length } = line;
  const keep = Math.exp(-1 / GIVE);
  // What a recursion around a ring has gathered once it no longer remembers its start.
  const settled = 1 - keep ** length;
  let sum = 0;
  for (let k = 0; k < length; k++) sum = keep * sum + line[k];
  sum /= settled;
  for (let k = 0; k < length; k++) {
    sum = keep * sum + line[k];
    to[k] = sum;
  }
  sum = 0;
  for (let k = length - 1; k >= 0; k--) sum = keep * sum + line[k];
  sum /= settled;
  for (let k = length - 1; k >= 0; k--) {
    sum = keep * sum + line[k];
    to[k] = ((to[k] + sum - line[k]) * (1 - keep)) / (1 + keep);
  }
}
