import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { type Given, paintedLayer, prepared, settingFor, withoutPaper } from '../testing/salt-bloom.ts';
import salt from './index.ts';

const STEP = 0.1;
const layerOf = (given: Given, making = {}) => paintedLayer(prepared(given, making), 0, 0, 300, 240, STEP);

describe('colours that run', () => {
  it('do not where they are told not to: the planes are then not asked for', () => {
    const { setting } = settingFor({ run: 0, parting: 0 });
    expect(salt.planesFor!(setting.parameters)).toEqual(['load']);
    expect(salt.planesFor!({ ...setting.parameters, run: 0.1 })).toEqual(['load', 'shift', 'bleed']);
    expect(salt.planesFor!({ ...setting.parameters, parting: 0.1 })).toEqual(['load', 'parting']);
  });

  it('do not on a dry wash, whatever is thrown on it', () => {
    const { bleed, shift } = layerOf({ wetness: 0, salt: 3000, run: 3 });
    expect(bleed.every((value) => value === 0)).toBe(true);
    expect(shift.every((value) => value === 0)).toBe(true);
  });

  it('run further the wetter the wash, and as far again where twice the run is asked', () => {
    const meanBleed = (given: Given) => meanOf(layerOf({ salt: 0, dried: 0, ...given }).bleed);
    expect(meanBleed({ wetness: 60 })).toBeGreaterThan(1.5 * meanBleed({ wetness: 20 }));
    expect(meanBleed({ run: 1 }) / meanBleed({ run: 0.5 })).toBeCloseTo(2, 3);
  });

  it('run in a wash that is wet in places and leave the dry ones crisp', () => {
    const { bleed } = layerOf({ wetness: 50, salt: 20, dried: 30 }, { width: 120, height: 100 });
    const sorted = Float32Array.from(bleed).sort();
    expect(sorted[Math.floor(0.05 * sorted.length)]).toBeLessThan(0.06);
    expect(sorted[Math.floor(0.95 * sorted.length)]).toBeGreaterThan(0.25);
  });

  it('are carried away from the grains: what lies in a bloom came from nearer its heart', () => {
    const model = prepared({
      salt: 60,
      grain: 5,
      mixture: 0,
      drifts: 0,
      wetness: 70,
      dried: 0,
      feathering: 0,
    });
    const { load, shift } = paintedLayer(withoutPaper(model), 0, 0, 300, 240, STEP);
    let [outward, strength] = [0, 0];
    for (let row = 2; row < 238; row++) {
      for (let column = 2; column < 298; column++) {
        const k = row * 300 + column;
        // Paint is thinner toward the grain: the way to it leads down the slope of the load.
        const slopeX = load[k + 2] - load[k - 2];
        const slopeY = load[k + 600] - load[k - 600];
        const steep = Math.hypot(slopeX, slopeY);
        if (steep < 0.1) continue;
        outward -= (slopeX * shift[2 * k] + slopeY * shift[2 * k + 1]) / steep;
        strength += Math.hypot(shift[2 * k], shift[2 * k + 1]);
      }
    }
    expect(outward / strength).toBeGreaterThan(0.4);
  });

  it('are sketched alike, and the same at 75 dpi as at 300', () => {
    const given = { salt: 120, wetness: 60 };
    const [finished, sketch] = [layerOf(given), layerOf(given, { quality: 'sketch' })];
    expect(correlation(finished.bleed, sketch.bleed)).toBeGreaterThan(0.95);
    expect(correlation(finished.shift, sketch.shift)).toBeGreaterThan(0.85);
    const model = prepared(given);
    const near = boxFiltered(paintedLayer(model, 0, 0, 400, 320, 25.4 / 300).bleed, 400, 4);
    const far = paintedLayer(model, 0, 0, 100, 80, 25.4 / 75).bleed;
    expect(correlation(near, far)).toBeGreaterThan(0.99);
  });

  it('give finite numbers for the most that may be asked', () => {
    const { bleed, shift } = layerOf({ run: 3, wetness: 100, salt: 3000, grain: 5 }, { width: 5, height: 7 });
    expect(bleed.every((value) => value >= 0 && value < 12)).toBe(true);
    expect(shift.every((value) => Math.abs(value) < 30)).toBe(true);
  });
});
