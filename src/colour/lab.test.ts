import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { parseHex } from './hex.ts';
import { labOfSrgb } from './lab.ts';

describe('L*a*b*', () => {
  // Computed with culori 4.0.2 (its mode lab65). White points rounded elsewhere move the last digits: 0.02.
  it.each([
    ['#ffffff', 100, 0, 0],
    ['#808080', 53.585, 0, 0],
    ['#ff0000', 53.2371, 80.0901, 67.2033],
    ['#00ff00', 87.7355, -86.1816, 83.1866],
    ['#0000ff', 32.3009, 79.1953, -107.8555],
    ['#8b4513', 37.4684, 26.4391, 40.9842],
  ])('of %s', (hex, L, a, b) => {
    const lab = labOfSrgb(parseHex(hex));
    expect(Math.abs(lab.L - L)).toBeLessThan(0.02);
    expect(Math.abs(lab.a - a)).toBeLessThan(0.02);
    expect(Math.abs(lab.b - b)).toBeLessThan(0.02);
  });

  it('agrees with culori all through the cube', () => {
    const toLab = converter('lab65');
    for (let code = 0; code < 2 ** 24; code += 9_973) {
      const [r, g, b] = [code >> 16, (code >> 8) & 255, code & 255].map((byte) => byte / 255);
      const ours = labOfSrgb([r, g, b]);
      const theirs = toLab({ mode: 'rgb', r, g, b });
      const off = Math.hypot(ours.L - theirs.l, ours.a - theirs.a, ours.b - theirs.b);
      expect(off, `#${code.toString(16)}`).toBeLessThan(0.0005);
    }
  });
});
