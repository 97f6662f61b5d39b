import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { SLACK, theKernel } from './deflate.ts';
import { STREAM_END, STREAM_HEAD } from './deflate-piece.ts';

/** Deflates bytes as a whole stream (RFC 1950). */
function streamOf(bytes: Uint8Array, withRuns: boolean): Buffer {
  const kernel = theKernel();
  const to = kernel.firstByte + bytes.length + SLACK;
  const memory = kernel.open(to + 2 * bytes.length + 4096);
  memory.set(bytes, kernel.firstByte);
  const length = kernel.deflate(kernel.firstByte, bytes.length, to, withRuns);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(kernel.adler32(kernel.firstByte, bytes.length));
  return Buffer.concat([STREAM_HEAD, memory.slice(to, to + length), STREAM_END, sum]);
}

/** Numbers in 0..1 by an arithmetic of their own, so that they are the same everywhere. */
function* numbers(): Generator<number> {
  for (let state = 1; ; state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff)
    yield (state >>> 8) / 0x7fffff;
}

/** Each symbol comes as often as the two before it together: the codes of these are as long as codes get. */
function skewed(): Uint8Array {
  const counts = [1, 1];
  while (counts.length < 22) counts.push(counts.at(-1)! + counts.at(-2)!);
  return Uint8Array.from(counts.flatMap((count, symbol) => new Array(count).fill(symbol)));
}

function noisy(length: number, of: (noise: number) => number): Uint8Array {
  const noise = numbers();
  return Uint8Array.from({ length }, () => of(noise.next().value));
}

/** Runs of all lengths up to beyond the longest that a symbol can tell. */
function runs(): Uint8Array {
  return Uint8Array.from(
    Array.from({ length: 600 }, (_, length) => new Array(length).fill(length % 3)).flat(),
  );
}

/** Lengths around blocks and words. */
const LENGTHS = [1, 2, 3, 4, 5, 15, 16, 17, 65_535, 65_536, 65_537, 200_003];

const KINDS: Record<string, (length: number) => Uint8Array> = {
  'noise of all values': (length) => noisy(length, (noise) => noise * 256),
  'differences of a texture': (length) => noisy(length, (noise) => Math.round(-9 * Math.log(noise + 1e-9))),
  'one value': (length) => new Uint8Array(length).fill(7),
  'hardly anything but zeros': (length) => noisy(length, (noise) => (noise > 0.999 ? 1 : 0)),
};

describe.each([true, false])('with runs: %s', (withRuns) => {
  it.each(Object.keys(KINDS))('zlib reads what was deflated, to its check sum: %s', (kind) => {
    for (const length of LENGTHS) {
      const bytes = KINDS[kind](length);
      expect(inflateSync(streamOf(bytes, withRuns)).equals(Buffer.from(bytes))).toBe(true);
    }
  });

  it('and codes that would be too long, and runs of every length', () => {
    for (const bytes of [skewed(), runs()])
      expect(inflateSync(streamOf(bytes, withRuns)).equals(Buffer.from(bytes))).toBe(true);
  });
});

it('noise grows by less than a hundredth, and flat grounds all but vanish', () => {
  const length = 1 << 18;
  expect(streamOf(KINDS['noise of all values'](length), false).length).toBeLessThan(1.01 * length);
  expect(streamOf(new Uint8Array(length), true).length).toBeLessThan(0.005 * length);
});
