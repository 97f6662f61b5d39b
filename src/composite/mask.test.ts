import { differenceCiede2000 } from 'culori';
import { describe, expect, it } from 'vitest';
import { formatHex, parseHex } from '../colour/hex.ts';
import { labOfSrgb } from '../colour/lab.ts';
import { type ColourMask, openColourMask } from './mask.ts';
import type { Pixels } from './working.ts';

const opaque = (...hexes: string[]) =>
  Uint8Array.from(hexes.flatMap((hex) => [...parseHex(hex).map((channel) => channel * 255), 255]));

function maskOf(hexes: string[], rest: Partial<ColourMask> = {}): ColourMask {
  const colours = hexes.map((hex) => labOfSrgb(parseHex(hex)));
  return { colours, tolerance: 5, softness: 5, spare: false, ...rest };
}

function fill(mask: ColourMask, pixels: Pixels): number[] {
  const out = new Float32Array(pixels.length / 4).fill(9);
  openColourMask(mask)(pixels, 0, out);
  return [...out];
}

describe('a mask by colour', () => {
  it('holds the ground and spares the motif, or the other way about', () => {
    const artwork = opaque('#f2e8d5', '#7a1f2b', '#f1e7d4');
    expect(fill(maskOf(['#f2e8d5']), artwork)).toEqual([1, 0, 1]);
    expect(fill(maskOf(['#f2e8d5'], { spare: true }), artwork)).toEqual([0, 1, 0]);
  });

  it('takes just the colour itself where nothing else is tolerated', () => {
    const exact = maskOf(['#f2e8d5'], { tolerance: 0, softness: 0 });
    expect(fill(exact, opaque('#f2e8d5', '#f3e8d5'))).toEqual([1, 0]);
  });

  // The difference by culori, an implementation of CIEDE2000 that is not ours.
  it('fades smoothly between tolerance and tolerance + softness', () => {
    const away = differenceCiede2000();
    const lab = (hex: string) => {
      const { L, a, b } = labOfSrgb(parseHex(hex));
      return { mode: 'lab65' as const, l: L, a, b };
    };
    const hexes = Array.from({ length: 4096 }, (_, index) =>
      formatHex([0.3 + (index >> 8) / 50, 0.2 + ((index >> 4) & 15) / 50, 0.2 + (index & 15) / 50]),
    );
    const mask = fill(maskOf(['#604838', '#8a5040'], { tolerance: 4, softness: 9 }), opaque(...hexes));
    const seen = { full: 0, none: 0, between: 0 };
    hexes.forEach((hex, index) => {
      const nearest = Math.min(away(lab(hex), lab('#604838')), away(lab(hex), lab('#8a5040')));
      const t = Math.min(1, Math.max(0, (nearest - 4) / 9));
      expect(Math.abs(mask[index] - (1 - t * t * (3 - 2 * t))), hex).toBeLessThan(0.5 / 254 + 1e-4);
      seen[t === 0 ? 'full' : t === 1 ? 'none' : 'between']++;
    });
    expect(Math.min(seen.full, seen.none, seen.between)).toBeGreaterThan(50);
  });

  it('gives a 16-bit sample the weight of its nearest byte', () => {
    const hexes = Array.from({ length: 64 }, (_, index) => formatHex([0.5 + index / 500, 0.4, 0.3]));
    const bytes = opaque(...hexes);
    const expected = fill(maskOf(['#806650']), bytes);
    for (const off of [-128, 0, 128]) {
      const shorts = Uint16Array.from(bytes, (byte, at) => (at % 4 === 3 ? 65_535 : byte * 257 + off));
      expect(fill(maskOf(['#806650']), shorts)).toEqual(expected);
    }
  });

  it('remembers what it measured, wherever it meets it', () => {
    const filler = openColourMask(maskOf(['#806650']));
    const artwork = opaque('#806650', '#907868', '#102030', '#907868');
    const [whole, part] = [new Float32Array(4), new Float32Array(2)];
    filler(artwork, 0, whole);
    filler(artwork, 8, part);
    expect([...part]).toEqual([0, whole[1]]);
    expect(whole[3]).toBe(whole[1]);
    expect(whole[1]).toBeGreaterThan(0);
    expect(whole[1]).toBeLessThan(1);
  });

  it('sees translucent artwork over the paper', () => {
    const pixels = Uint8Array.of(0, 0, 0, 0, 0, 0, 0, 128, 0, 0, 0, 255);
    const eight = { tolerance: 1, softness: 0 };
    expect(fill(maskOf(['#ffffff'], eight), pixels)).toEqual([1, 0, 0]);
    expect(fill(maskOf(['#7f7f7f'], eight), pixels)).toEqual([0, 1, 0]);
    expect(fill(maskOf(['#000000'], eight), pixels)).toEqual([0, 0, 1]);
    const paper = parseHex('#c8b060');
    expect(fill(maskOf(['#c8b060'], { ...eight, paper }), pixels)).toEqual([1, 0, 0]);
    const shorts = Uint16Array.from(pixels, (byte) => byte * 257);
    expect(fill(maskOf(['#c8b060'], { ...eight, paper }), shorts)).toEqual([1, 0, 0]);
  });
});
