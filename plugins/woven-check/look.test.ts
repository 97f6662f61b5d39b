import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { makeCheck, paintCheck } from '../testing/woven-check.ts';

const GINGHAM = { warp: 'A24 B24', yarns: ['#ffffff', '#204080'], sett: [24], tone: 0, straying: 0 };
const WHITE = [1, 1, 1];
const BLUE = [0x20 / 255, 0x40 / 255, 0x80 / 255];

/** Mean tint of a rectangle in mm. */
function tintOf(made: ReturnType<typeof makeCheck>, x: number, y: number, side: number): number[] {
  const { mmPerPixelX, mmPerPixelY } = made.grid;
  const size = Math.round(side / mmPerPixelX);
  const { tint } = paintCheck(made, Math.round(x / mmPerPixelX), Math.round(y / mmPerPixelY), size, size);
  return [0, 1, 2].map((channel) => meanOf(tint.filter((_, index) => index % 4 === channel)));
}

describe('colours mix thread by thread', () => {
  it.each([300, 75, 20])('a gingham has white, blue and mixed squares at %i dpi', (dpi) => {
    const made = makeCheck(GINGHAM, 'straight', '80x80mm', dpi);
    // Orders of 20 mm begin in the middle of a white stripe: white to 5 mm, blue from 5 to 15 mm.
    const [white, mixed, blue] = [tintOf(made, 17, 17, 6), tintOf(made, 7, 17, 6), tintOf(made, 7, 7, 6)];
    for (const channel of [0, 1, 2]) {
      expect(white[channel]).toBeCloseTo(WHITE[channel], 2);
      expect(blue[channel]).toBeCloseTo(BLUE[channel], 2);
      // Half the crossings show the warp: the mean of both.
      expect(mixed[channel]).toBeCloseTo((WHITE[channel] + BLUE[channel]) / 2, 1);
    }
  });
  it('a weft of its own goes the other way: a blue warp under a white weft is mixed everywhere', () => {
    const made = makeCheck({ ...GINGHAM, warp: 'B1', weft: 'A1' }, 'straight', '40x40mm');
    for (const x of [3, 13, 23]) expect(tintOf(made, x, 9, 6)[0]).toBeCloseTo((1 + BLUE[0]) / 2, 1);
  });
  it('a twill of three over and one under shows more of the warp, and its line climbs to the right', () => {
    const made = makeCheck(
      { ...GINGHAM, warp: 'B1', weft: 'A1', weave: [3, 1], unevenness: 0 },
      'straight',
      '40x40mm',
      600,
    );
    expect(tintOf(made, 5, 5, 20)[0]).toBeLessThan(0.45);
    const crossing = made.model.warp.pitch / made.grid.mmPerPixelX;
    const steps = [1, -1].map((way) => {
      const [x, y] = [Math.round(crossing), Math.round(way * crossing)];
      const red = (layer: { tint: Float32Array }) => layer.tint.filter((_, index) => index % 4 === 0);
      return correlation(red(paintCheck(made, 0, 0, 90, 90)), red(paintCheck(made, x, y, 90, 90)));
    });
    expect(steps[1]).toBeGreaterThan(0.7);
    expect(steps[0]).toBeLessThan(0.5);
  });
  it('ends much closer than picks cover the weft, as in a rep', () => {
    const shareOfWarp = (sett: number[]) =>
      1 - tintOf(makeCheck({ ...GINGHAM, warp: 'B1', weft: 'A1', sett }, 'straight', '40x40mm'), 5, 5, 20)[0];
    expect(shareOfWarp([20, 10])).toBeGreaterThan(1.25 * shareOfWarp([15, 15]));
  });
});

describe('from afar it is what it is from near', () => {
  it.each<[string, object]>([
    ['plain', {}],
    ['twill', { weave: [2, 2] }],
    ['rep', { sett: [30, 16], warp: 'A9 B4 A2 B4' }],
  ])('%s', (_name, parameters) => {
    const given = { ...GINGHAM, unevenness: 9, ...parameters };
    const size = '61x61mm';
    const near = makeCheck(given, 'straight', size, 300);
    const far = makeCheck(given, 'straight', size, 25);
    expect(near.grid.mmPerPixelX * 12).toBeCloseTo(far.grid.mmPerPixelX, 1);
    const whole = paintCheck(near, 0, 0, 720, 720);
    const small = paintCheck(far, 0, 0, 60, 60);
    expect(meanOf(whole.shade)).toBeCloseTo(meanOf(small.shade), 2);
    const red = (tint: Float32Array) => tint.filter((_, index) => index % 4 === 0);
    const averaged = boxFiltered(red(whole.tint), 720, 12);
    expect(correlation(averaged, red(small.tint))).toBeGreaterThan(0.97);
  });
  it('its light is at its level whatever the weave', () => {
    for (const weave of [
      [1, 1],
      [2, 2],
      [3, 1],
      [5, 2],
    ]) {
      for (const relief of [0, 1, 2]) {
        const made = makeCheck({ weave, relief, tone: 0, fibres: 0, unevenness: 0 }, 'straight', '30x30mm');
        expect(meanOf(paintCheck(made, 0, 0, 350, 350).shade)).toBeCloseTo(1 - 0.1 * relief, 1);
      }
    }
  });
});
