import { describe, expect, it } from 'vitest';
import { ArrivalQueue } from './arrival-queue.ts';
import { randomStream } from './random.ts';

/** Takes all out, skipping what came before. */
function drained(queue: ArrivalQueue): number[] {
  const cells: number[] = [];
  const seen = new Set<number>();
  for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
    if (!seen.has(cell)) cells.push(cell);
    seen.add(cell);
  }
  return cells;
}

describe('a queue of arrivals', () => {
  // Spans that hold one cell, a thousand, and all; times before the first span and after the last.
  it.each([
    [0, 0.001, 2000],
    [-1, 0.5, 8],
    [0.5, 0.01, 3],
  ])('gives the soonest first, from %d with spans of %d', (from, span, spans) => {
    const random = randomStream('queue', 'times');
    const times = Float32Array.from({ length: 5000 }, () => random.next());
    const queue = new ArrivalQueue(times, from, span, spans);
    for (let cell = 0; cell < times.length; cell++) queue.push(cell);
    const sorted = Array.from(times.keys()).sort((a, b) => times[a] - times[b]);
    expect(drained(queue).map((cell) => times[cell])).toEqual(sorted.map((cell) => times[cell]));
  });

  it('keeps order while times fall and cells are put in between', () => {
    const random = randomStream('queue', 'falling');
    const times = Float32Array.from({ length: 400 }, () => 5 + random.next() * 5);
    const queue = new ArrivalQueue(times, 0, 0.01, 500);
    for (let cell = 0; cell < 400; cell++) queue.push(cell);
    const isOut = new Uint8Array(400);
    let last = 0;
    let count = 0;
    for (let cell = queue.pop(); cell >= 0; cell = queue.pop()) {
      if (isOut[cell]) continue;
      isOut[cell] = 1;
      count++;
      expect(times[cell]).toBeGreaterThanOrEqual(last);
      last = times[cell];
      const other = random.below(400);
      const sooner = Math.fround(last + random.next() * 2);
      if (isOut[other] || sooner >= times[other]) continue;
      times[other] = sooner;
      queue.push(other);
    }
    expect(count).toBe(400);
  });

  it('is empty at once where nothing was put in', () => {
    expect(new ArrivalQueue(new Float32Array(3), 0, 1, 4).pop()).toBe(-1);
  });
});
