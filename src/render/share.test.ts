import { describe, expect, it } from 'vitest';
import { shareModel } from './share.ts';

const large = () => Float32Array.from({ length: 20_000 }, (_, k) => k);

describe('shareModel', () => {
  it('keeps the values and puts large arrays in shared memory, small ones not', () => {
    const model = {
      fields: [large(), Float32Array.of(1, 2)],
      name: 'a',
      deep: { count: 3, list: [1, null] },
    };
    const shared = shareModel(model);
    expect(shared).toEqual(model);
    expect(shared.fields[0].buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(shared.fields[1].buffer).toBeInstanceOf(ArrayBuffer);
  });

  it('is not copied when sent: a second reader sees what is written', () => {
    const shared = shareModel({ field: large() });
    const sent = structuredClone(shared);
    sent.field[7] = -1;
    expect(shared.field[7]).toBe(-1);
  });

  it('leaves the model of the effect alone, which may be kept', () => {
    const model = { field: large() };
    shareModel(model).field[7] = -1;
    expect(model.field[7]).toBe(7);
  });

  it('keeps views of one buffer together, with their places in it', () => {
    const whole = new Float32Array(40_000).fill(2);
    const half = whole.subarray(20_000);
    const shared = shareModel({ whole, half, again: half });
    shared.half[0] = 9;
    expect(shared.whole[20_000]).toBe(9);
    expect(shared.again).toBe(shared.half);
  });

  it('ends on data that holds itself', () => {
    const ring: { self?: unknown; field: Float32Array } = { field: large() };
    ring.self = ring;
    const shared = shareModel(ring);
    expect(shared.self).toBe(shared);
  });

  it('leaves what is not plain as it is', () => {
    const map = new Map([[1, large()]]);
    const paint = () => 1;
    expect(shareModel({ map, paint })).toEqual({ map, paint });
  });
});
