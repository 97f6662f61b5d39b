import { describe, expect, it } from 'vitest';
import { decodeSrgb } from '../colour/srgb.ts';
import { readBand, writeBand } from './working.ts';

/** All values of a sample, in each of the four places of a pixel. */
function everyValue<T extends Uint8Array | Uint16Array>(pixels: T): T {
  return pixels.map((_, at) => Math.floor(at / 4) + (at % 4) * 37) as T;
}

describe('a working band', () => {
  it('brings every byte back in every channel', () => {
    const pixels = everyValue(new Uint8Array(256 * 4));
    const back = new Uint8Array(pixels.length);
    writeBand(readBand(pixels, 0, 256, new Float32Array(pixels.length)), 256, back, 0);
    expect(back).toEqual(pixels);
  });

  it('brings every 16-bit value back in every channel', () => {
    const pixels = everyValue(new Uint16Array(65_536 * 4));
    const back = new Uint16Array(pixels.length);
    writeBand(readBand(pixels, 0, 65_536, new Float32Array(pixels.length)), 65_536, back, 0);
    expect(back).toEqual(pixels);
  });

  it('is linear light with alpha as it stands', () => {
    const eight = readBand(Uint8Array.of(188, 64, 10, 128), 0, 1, new Float32Array(4));
    const sixteen = readBand(
      Uint16Array.of(188, 64, 10, 128).map((byte) => byte * 257),
      0,
      1,
      new Float32Array(4),
    );
    const expected = [...[188, 64, 10].map((byte) => decodeSrgb(byte / 255)), 128 / 255].map(Math.fround);
    expect([...eight]).toEqual(expected);
    expect([...sixteen]).toEqual(expected);
  });

  it('touches only its own pixels', () => {
    const pixels = Uint8Array.from({ length: 16 }, (_, at) => at);
    const working = readBand(pixels, 4, 2, new Float32Array(12).fill(9));
    expect(working[7]).toBe(Math.fround(11 / 255));
    expect([...working.subarray(8)]).toEqual([9, 9, 9, 9]);
    const back = new Uint8Array(16).fill(99);
    writeBand(working, 2, back, 4);
    expect([...back]).toEqual([99, 99, 99, 99, 4, 5, 6, 7, 8, 9, 10, 11, 99, 99, 99, 99]);
  });

  it('writes the nearest value', () => {
    const [eight, sixteen] = [new Uint8Array(4), new Uint16Array(4)];
    for (const part of [-0.45, 0.45]) {
      const near = (steps: number) =>
        Float32Array.of(
          ...[20, 100, 200].map((step) => decodeSrgb((step + part) / steps)),
          (77 + part) / steps,
        );
      writeBand(near(255), 1, eight, 0);
      writeBand(near(65_535), 1, sixteen, 0);
      expect([...eight]).toEqual([20, 100, 200, 77]);
      expect([...sixteen]).toEqual([20, 100, 200, 77]);
    }
  });

  it('clamps what it writes, and writes 0 for what is not a number', () => {
    const working = Float32Array.of(-1, 1.5, Number.NaN, 2);
    const [eight, sixteen] = [new Uint8Array(4), new Uint16Array(4)];
    writeBand(working, 1, eight, 0);
    writeBand(working, 1, sixteen, 0);
    expect([...eight]).toEqual([0, 255, 0, 255]);
    expect([...sixteen]).toEqual([0, 65_535, 0, 65_535]);
  });
});
