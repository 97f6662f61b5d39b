import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { drainUpwind } from './drain.ts';
import { march } from './march.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/3', 'brick:1/2'];

function roughSlowness({ width, height }: FieldShape, name: string): Float32Array {
  const random = randomStream(name, 'slowness');
  return Float32Array.from({ length: width * height }, () => 0.5 + random.next());
}

describe.each(LAYOUTS)('draining over %s', (layout) => {
  const box = boxOf({ layout: parseLayout(layout), width: 24, height: 18 });
  const shape = fieldShape(box, 0.25);
  const arrivals = march(shape, roughSlowness(shape, layout), { x: [3, 20, 11], y: [2, 9, 16] });
  const content = new Float32Array(shape.width * shape.height).fill(1);
  const through = drainUpwind(shape, arrivals, content);

  it('brings all content to the cells that nothing reached earlier', () => {
    let arrived = 0;
    for (let k = 0; k < through.length; k++) {
      const [i, j] = [k % shape.width, Math.floor(k / shape.width)];
      let isLowest = true;
      for (let y = -1; y <= 1; y++)
        for (let x = -1; x <= 1; x++)
          if (arrivals.times[cellIndex(shape, i + x, j + y)] < arrivals.times[k]) isLowest = false;
      if (isLowest) arrived += through[k];
    }
    expect(Math.abs(arrived / through.length - 1)).toBeLessThan(1e-6);
  });

  it('gathers streams: some cells carry hundreds, a third hardly more than their own', () => {
    const sorted = through.slice().sort();
    expect(sorted[0]).toBe(1);
    expect(sorted[Math.floor(sorted.length / 3)]).toBeLessThan(6);
    expect(sorted[sorted.length - 3]).toBeGreaterThan(300);
  });

  it('moves with its domain', () => {
    const [right, down] = [31, 45];
    const move = <T extends Float32Array | Int32Array>(values: T): T => {
      const moved = values.slice() as T;
      for (let k = 0; k < values.length; k++)
        moved[cellIndex(shape, (k % shape.width) + right, Math.floor(k / shape.width) + down)] = values[k];
      return moved;
    };
    const order = arrivals.order.map((k) =>
      cellIndex(shape, (k % shape.width) + right, Math.floor(k / shape.width) + down),
    );
    const moved = drainUpwind(
      shape,
      { times: move(arrivals.times), winners: move(arrivals.winners), order },
      content,
    );
    expect(moved).toEqual(move(through));
  });
});

describe('draining', () => {
  const box = boxOf({ layout: parseLayout('straight'), width: 40, height: 40 });
  const shape = fieldShape(box, 0.25);
  const { width, height } = shape;
  const arrivals = march(
    shape,
    new Float32Array(width * height).fill(1),
    { x: [20], y: [20] },
    { until: 16 },
  );
  const content = new Float32Array(width * height).fill(0.25 * 0.25);

  // Through a circle of radius r round one seed must pass what lies outside it: pi (R^2 - r^2).
  it('carries the outer area through every circle', () => {
    const through = drainUpwind(shape, arrivals, content, { concentration: 1 });
    for (const radius of [4, 8, 12]) {
      let [sum, count] = [0, 0];
      for (let k = 0; k < through.length; k++) {
        const dx = ((k % width) + 0.5) * 0.25 - 20;
        const dy = (Math.floor(k / width) + 0.5) * 0.25 - 20;
        if (Math.abs(Math.hypot(dx, dy) - radius) > 0.5) continue;
        sum += through[k];
        count++;
      }
      // Mean over directions; a cell is crossed along 1 to sqrt(2) sides.
      const perMm = sum / count / 0.25;
      const expected = (16 * 16 - radius * radius) / (2 * radius);
      expect(Math.abs(perMm / expected - 1)).toBeLessThan(0.3);
    }
  });

  it('leaves alone what was not reached', () => {
    const through = drainUpwind(shape, arrivals, content);
    expect(through[0]).toBe(content[0]);
  });

  it('gathers more the more it prefers the steepest way', () => {
    const rough = march(shape, roughSlowness(shape, 'rough'), { x: [20], y: [20] });
    const squares = [1, 2, 6].map((concentration) =>
      drainUpwind(shape, rough, content, { concentration }).reduce((sum, value) => sum + Math.sqrt(value), 0),
    );
    expect(squares[0]).toBeGreaterThan(squares[1]);
    expect(squares[1]).toBeGreaterThan(squares[2]);
  });

  it('refuses content of another shape', () => {
    expect(() => drainUpwind(shape, arrivals, new Float32Array(3))).toThrow('the content to drain');
  });
});
