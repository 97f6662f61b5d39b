import { boxOf, parseLayout } from 'tenter';
import { describe, expect, it } from 'vitest';
import { lapAt, waveNear } from './laps.ts';

describe('laps of the brush', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('close over %s', (layout) => {
    const { lattice } = boxOf({ layout: parseLayout(layout), width: 310, height: 270 });
    const wave = waveNear(lattice, 1.4, 52)!;
    for (const [x, y] of [
      [lattice.ax, lattice.ay],
      [lattice.bx, lattice.by],
    ]) {
      const turns = wave.x * x + wave.y * y;
      expect(turns).toBeCloseTo(Math.round(turns), 9);
    }
    expect(Math.abs(Math.hypot(wave.x, wave.y) * 52 - 1)).toBeLessThan(0.25);
    expect(Math.abs(Math.atan2(wave.y, wave.x) - 1.4)).toBeLessThan(0.3);
  });

  it('are none on a repeat too small for them', () => {
    const { lattice } = boxOf({ layout: parseLayout('straight'), width: 15, height: 12 });
    expect(waveNear(lattice, 1.4, 52)).toBeUndefined();
  });

  it('have one crisp side, the lower', () => {
    expect(lapAt(0.999) - lapAt(0.001)).toBeGreaterThan(1);
    expect(lapAt(0.6) - lapAt(0.55)).toBeLessThan(0.1);
  });
});
