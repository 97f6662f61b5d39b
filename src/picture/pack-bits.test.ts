import { describe, expect, it } from 'vitest';
import { packBits } from './pack-bits.ts';

/** As TIFF 6.0, section 9 says it is unpacked. */
function unpacked(packed: Uint8Array): number[] {
  const out: number[] = [];
  for (let at = 0; at < packed.length; ) {
    const n = (packed[at++] << 24) >> 24;
    if (n >= 0) {
      out.push(...packed.subarray(at, at + n + 1));
      at += n + 1;
    } else if (n !== -128) out.push(...new Array(1 - n).fill(packed[at++]));
  }
  return out;
}

describe('PackBits', () => {
  it('gives back what went in, rows of any bytes', () => {
    let seed = 7;
    const next = () => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed;
    };
    for (const rowBytes of [1, 2, 127, 128, 129, 130, 257, 1000]) {
      for (const kinds of [1, 2, 3, 256]) {
        const rows = Uint8Array.from({ length: 3 * rowBytes }, () => next() % kinds);
        expect(unpacked(packBits(rows, rowBytes))).toEqual([...rows]);
      }
    }
  });

  it('packs the example of Technical Note 1023 as it does', () => {
    const row = Buffer.from('aaaaaa80002aaaaaaaaa80002a22aaaaaaaaaaaaaaaaaaaa', 'hex');
    const packed = Buffer.from(packBits(row, row.length)).toString('hex');
    expect(packed).toBe('feaa0280002afdaa0380002a22f7aa');
  });
});
