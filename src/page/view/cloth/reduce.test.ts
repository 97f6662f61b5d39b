import { describe, expect, it } from 'vitest';
import { reduced } from './reduce.ts';

const greys = (width: number, ...values: number[]) => ({
  data: Uint8ClampedArray.from(values.flatMap((value) => [value, value, value, 255])),
  width,
  height: values.length / width,
});

describe('a picture on fewer pixels', () => {
  it('is the mean in linear light: black and white are 188, not 128', () => {
    expect([...reduced(greys(2, 0, 255, 255, 0), 1, 1).data]).toEqual([188, 188, 188, 255]);
  });
  it('weighs a sample by the part of it that is covered', () => {
    // 3 to 2: each takes one whole and half of the middle one, 1/3 of its light.
    expect([...reduced(greys(3, 0, 255, 0), 2, 1).data.filter((_, i) => i % 4 === 0)]).toEqual([156, 156]);
    expect([...reduced(greys(1, 255, 0, 0), 1, 2).data.filter((_, i) => i % 4 === 0)]).toEqual([213, 0]);
  });
  it('takes no colour from what is not there', () => {
    const data = Uint8ClampedArray.from([200, 10, 10, 255, 0, 255, 0, 0]);
    expect([...reduced({ data, width: 2, height: 1 }, 1, 1).data]).toEqual([200, 10, 10, 128]);
  });
  it('leaves an even picture as it is, at any size', () => {
    const even = greys(7, ...new Array(35).fill(77));
    for (const [width, height] of [
      [7, 5],
      [3, 2],
      [6, 4],
      [8, 6],
    ]) {
      const small = reduced(even, width, height);
      expect([...small.data]).toEqual([...greys(width, ...new Array(width * height).fill(77)).data]);
    }
  });
});
