import { describe, expect, it } from 'vitest';
import { DEFAULT_LIGHT, type Light } from './light.ts';
import { lightRelief, openLight } from './relief.ts';
import { slopeTaps } from './slope.ts';

/** The shade that heights (mm, at mm from the left upper corner) come to. */
function litAt(
  height: (x: number, y: number) => number,
  {
    light = DEFAULT_LIGHT,
    dpi = 300,
    width = 40,
    rows = 30,
  }: { light?: Light; dpi?: number; width?: number; rows?: number } = {},
): Float32Array {
  const step = 25.4 / dpi;
  const opened = openLight(light, step, step);
  const { margin } = opened;
  const relief = new Float32Array((width + 2 * margin) * (rows + 2 * margin));
  for (let at = 0; at < relief.length; at++) {
    const column = (at % (width + 2 * margin)) - margin;
    const row = Math.floor(at / (width + 2 * margin)) - margin;
    relief[at] = height((column + 0.5) * step, (row + 0.5) * step);
  }
  const shade = new Float32Array(width * rows).fill(1);
  lightRelief(relief, width, rows, opened, shade);
  return shade;
}

/**
 * What a surface of these slopes returns beside level ground: Horn, Hill Shading and the Reflectance Map (1981),
 * Lambert's law and an even sky; written with angles here, not with slopes.
 */
function hornAt(across: number, down: number, { direction, elevation }: Light): number {
  const [turn, rise] = [(direction * Math.PI) / 180, (elevation * Math.PI) / 180];
  const normal = [-across, -down, 1].map((part) => part / Math.hypot(across, down, 1));
  const towards = [Math.cos(rise) * Math.cos(turn), Math.cos(rise) * Math.sin(turn), Math.sin(rise)];
  const cosine = normal.reduce((sum, part, k) => sum + part * towards[k], 0);
  const tilt = Math.atan(Math.hypot(across, down));
  return (0.6 * Math.max(0, cosine)) / Math.sin(rise) + (0.4 * (1 + Math.cos(tilt))) / 2;
}

const LIGHTS: Light[] = [
  DEFAULT_LIGHT,
  { direction: 0, elevation: 45, gloss: 0 },
  { direction: 300, elevation: 70, gloss: 0 },
];

describe('level ground', () => {
  it.each([0, 0.37, -12.3])('%f mm up returns all its light, to the bit, with gloss and without', (level) => {
    for (const gloss of [0, 0.5, 1]) {
      const shade = litAt(() => level, { light: { ...DEFAULT_LIGHT, gloss } });
      expect(shade.every((value) => value === 1)).toBe(true);
    }
  });
});

describe.each(LIGHTS)('under $direction deg, $elevation deg', (light) => {
  it.each([75, 300, 1200])('a plane at %i dpi is lit as Horn has it', (dpi) => {
    for (const [across, down] of [
      [0.2, 0],
      [0, -0.3],
      [-0.4, 0.25],
    ]) {
      const shade = litAt((x, y) => across * x + down * y, { light, dpi });
      for (const value of shade) expect(value).toBeCloseTo(hornAt(across, down, light), 4);
    }
  });
  it('a cap of a sphere of 8 mm is lit as Horn has it, everywhere', () => {
    const radius = 8;
    const [width, rows, dpi] = [60, 50, 600];
    const step = 25.4 / dpi;
    const [middleX, middleY] = [(width / 2) * step, (rows / 2) * step];
    const rise = (x: number, y: number) => Math.sqrt(radius ** 2 - (x - middleX) ** 2 - (y - middleY) ** 2);
    const shade = litAt(rise, { light, dpi, width, rows });
    shade.forEach((value, k) => {
      const [x, y] = [((k % width) + 0.5) * step, (Math.floor(k / width) + 0.5) * step];
      const up = rise(x, y);
      expect(value).toBeCloseTo(hornAt((middleX - x) / up, (middleY - y) / up, light), 3);
    });
  });
});

describe('ridges', () => {
  /** Half the height from a ridge's foot to its top, mm, for a steepest slope of 0.2. */
  const ridge = (period: number) => (0.2 * period) / (2 * Math.PI);
  const slopesOf = (period: number, dpi: number) => {
    const light = { direction: 180, elevation: 45, gloss: 0 };
    const shade = litAt((x) => ridge(period) * Math.sin((2 * Math.PI * x) / period), {
      light,
      dpi,
      width: 240,
      rows: 2,
    });
    return (Math.max(...shade) - Math.min(...shade)) / 2;
  };
  /** The same by Horn, for a ridge that a Gaussian of this spread has evened out. */
  const hornRidge = (period: number, spread: number) => {
    const light = { direction: 180, elevation: 45, gloss: 0 };
    const steepest = 0.2 * Math.exp(-(((2 * Math.PI * spread) / period) ** 2) / 2);
    return (hornAt(steepest, 0, light) - hornAt(-steepest, 0, light)) / 2;
  };
  it.each([
    [0.5, 300],
    [1, 300],
    [0.4, 1200],
    [0.8, 600],
    [2, 75],
  ])('of %f mm at %i dpi lose by the spread what a Gaussian takes', (period, dpi) => {
    const spread = Math.max(0.04, 0.25 * (25.4 / dpi));
    expect(slopesOf(period, dpi) / hornRidge(period, spread)).toBeCloseTo(1, 1.5);
  });
  it.each([0.8, 1.3, 3])('of %f mm are as strong at 75, 150 and 300 dpi as at 1200', (period) => {
    const fine = slopesOf(period, 1200);
    expect(slopesOf(period, 300)).toBeGreaterThan(0.99 * fine);
    expect(slopesOf(period, 150)).toBeGreaterThan(0.95 * fine);
    if (period > 1) expect(slopesOf(period, 75)).toBeGreaterThan(0.87 * fine);
    for (const dpi of [75, 150, 300]) expect(slopesOf(period, dpi)).toBeLessThan(1.02 * fine);
  });
  it('a light straight above tells up from down nowhere', () => {
    const light = { direction: 225, elevation: 90, gloss: 0 };
    const shade = litAt((x) => 0.1 * Math.sin(6 * x), { light });
    expect(Math.max(...shade)).toBeLessThanOrEqual(1);
  });
});

describe('taps', () => {
  it.each([30, 72, 75, 150, 300, 600, 1200, 2400])(
    'at %i dpi find the slope of a ramp and the level of a plain',
    (dpi) => {
      const { derivative, smooth, reach } = slopeTaps(25.4 / dpi);
      let [slope, level] = [0, smooth[0]];
      for (let tap = 1; tap <= reach; tap++) {
        slope += 2 * tap * derivative[tap] * (25.4 / dpi);
        level += 2 * smooth[tap];
      }
      expect(slope).toBeCloseTo(1, 12);
      expect(level).toBeCloseTo(1, 12);
    },
  );
});

describe('gloss', () => {
  it('gleams on the flank that mirrors the light, and nowhere makes darker than it takes from level ground', () => {
    const at = (across: number, gloss: number) =>
      litAt((x) => across * x, { light: { direction: 180, elevation: 30, gloss } })[0];
    const mirror = Math.tan(Math.PI / 6);
    expect(at(mirror, 1) / at(mirror, 0)).toBeGreaterThan(1.25);
    expect(at(mirror, 0.5) / at(mirror, 0)).toBeGreaterThan(1.02);
    expect(at(-0.3, 1)).toBeGreaterThan(0.9 * at(-0.3, 0));
  });
});

describe('bits', () => {
  it('do not depend on where the rectangle begins', () => {
    const opened = openLight({ direction: 211, elevation: 20, gloss: 0.4 }, 0.08, 0.09);
    const { margin } = opened;
    const random = Float32Array.from({ length: 50 * 40 }, (_, k) => Math.sin(k * k * 0.37) * 0.05);
    const cut = (left: number, top: number, width: number, height: number) => {
      const relief = new Float32Array((width + 2 * margin) * (height + 2 * margin));
      for (let row = 0; row < height + 2 * margin; row++) {
        const from = (top - margin + row) * 50 + left - margin;
        relief.set(random.subarray(from, from + width + 2 * margin), row * (width + 2 * margin));
      }
      const shade = new Float32Array(width * height).fill(0.9);
      lightRelief(relief, width, height, opened, shade);
      return shade;
    };
    const whole = cut(5, 5, 40, 30);
    for (const [x, y, width, height] of [
      [0, 0, 40, 1],
      [3, 7, 11, 5],
      [39, 0, 1, 30],
    ]) {
      const part = cut(5 + x, 5 + y, width, height);
      part.forEach((value, k) => {
        expect(value).toBe(whole[(y + Math.floor(k / width)) * 40 + x + (k % width)]);
      });
    }
  });
});
