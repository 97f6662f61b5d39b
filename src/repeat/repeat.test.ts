import { describe, expect, it } from 'vitest';
import { Fault } from '../fault.ts';
import { fitGrid, gridAtDensity, gridOfPixels } from './grid.ts';
import { wrapPoint } from './lattice.ts';
import { formatLayout, parseLayout } from './layout.ts';
import { parseDensity, parseSize } from './length.ts';
import { boxOf } from './repeat.ts';
import { unfold } from './unfold.ts';

const repeatOf = (layout: string, size: string) => ({ layout: parseLayout(layout), ...parseSize(size) });

function faultOf(action: () => unknown): Fault {
  try {
    action();
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('layouts', () => {
  it('reads what it writes', () => {
    for (const text of [
      'straight',
      'drop:1/2',
      'drop:2/5',
      'brick:1/3',
      'mirror-x',
      'mirror-y',
      'mirror-xy',
      'turn',
    ]) {
      expect(formatLayout(parseLayout(text))).toBe(text);
    }
  });
  it('takes a bare drop as a half-drop and reduces fractions', () => {
    expect(formatLayout(parseLayout('drop'))).toBe('drop:1/2');
    expect(formatLayout(parseLayout('brick:2/4'))).toBe('brick:1/2');
  });
  it.each(['', 'diagonal', 'drop:0/2', 'drop:3/2', 'drop:1/0', 'drop:x', 'turn:1/2', 'drop:1/65'])(
    'refuses %j',
    (text) => {
      expect(faultOf(() => parseLayout(text)).kind).toBe('usage');
    },
  );
});

describe('sizes and densities', () => {
  it('keeps mm inside', () => {
    expect(parseSize('640x480mm')).toEqual({ width: 640, height: 480 });
    expect(parseSize('64cm')).toEqual({ width: 640, height: 640 });
    expect(parseSize('10in x 25.4cm').width).toBeCloseTo(254, 9);
  });
  it('reads dpi and px/cm', () => {
    expect(parseDensity('254')).toBeCloseTo(10, 12);
    expect(parseDensity('118px/cm')).toBeCloseTo(11.8, 12);
  });
  it.each(['640', '640x', 'x', '-3mm', '0x5mm', '1x2x3mm', 'NaNmm'])('refuses the size %j', (text) => {
    expect(faultOf(() => parseSize(text)).kind).toBe('usage');
  });
  it.each(['0', '-300', 'NaN', '300 lpi', '1e9'])('refuses the density %j', (text) => {
    expect(faultOf(() => parseDensity(text)).kind).toBe('usage');
  });
});

describe('a grid', () => {
  // 640 mm at 300 dpi is 7559.06 px, at 254 dpi exactly 6400 px: 25.4 mm to the inch.
  it('refuses what misses whole pixels and names what fits', () => {
    const fault = faultOf(() => gridAtDensity(repeatOf('straight', '640x640mm'), parseDensity('300')));
    expect(fault.message).toContain('7559.055 x 7559.055 px');
    expect(fault.message).toContain('299.9978 dpi');
  });
  it('takes what fits', () => {
    const grid = gridAtDensity(repeatOf('drop:1/2', '640x640mm'), parseDensity('254'));
    expect([grid.width, grid.height, grid.lattice.ay]).toEqual([6400, 6400, 3200]);
  });
  it('fits by rounding pixels and keeping the size', () => {
    const grid = fitGrid(repeatOf('drop:1/2', '640x640mm'), parseDensity('300'));
    expect([grid.width, grid.height]).toEqual([7559, 7560]);
    expect(grid.mmPerPixelY * grid.height).toBeCloseTo(640, 9);
  });
  it('refuses odd heights at half-drop and odd widths at half-brick', () => {
    expect(faultOf(() => gridOfPixels(repeatOf('drop', '10x10mm'), 100, 101)).message).toContain(
      '100 x 102 px',
    );
    expect(faultOf(() => gridOfPixels(repeatOf('brick', '10x10mm'), 101, 100)).message).toContain(
      '102 x 100 px',
    );
  });
  it('refuses a size of another shape', () => {
    expect(faultOf(() => gridOfPixels(repeatOf('straight', '10x20mm'), 100, 100)).message).toContain(
      '10 x 10 mm',
    );
  });
});

describe('the lattice', () => {
  it('wraps every translate to the same point', () => {
    for (const text of ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3']) {
      const { lattice } = boxOf(repeatOf(text, '30x20mm'));
      const home = wrapPoint(lattice, 7.25, 3.5);
      for (const [m, n] of [
        [1, 0],
        [0, 1],
        [-2, 3],
        [5, -4],
      ]) {
        const moved = wrapPoint(
          lattice,
          7.25 + m * lattice.ax + n * lattice.bx,
          3.5 + m * lattice.ay + n * lattice.by,
        );
        expect(moved[0]).toBeCloseTo(home[0], 9);
        expect(moved[1]).toBeCloseTo(home[1], 9);
      }
    }
  });
});

describe('unfolding', () => {
  const tile = Uint8Array.from([1, 2, 3, 4]); // 1 2 over 3 4
  const cases: [string, number[]][] = [
    ['mirror-x', [1, 2, 2, 1, 3, 4, 4, 3]],
    ['mirror-y', [1, 2, 3, 4, 3, 4, 1, 2]],
    ['mirror-xy', [1, 2, 2, 1, 3, 4, 4, 3, 3, 4, 4, 3, 1, 2, 2, 1]],
    ['turn', [1, 2, 4, 3, 3, 4, 2, 1]],
    ['drop:1/2', [1, 2, 3, 4]],
  ];
  it.each(cases)('lays out %s', (text, expected) => {
    const box = unfold(parseLayout(text), tile, 2, 2, 1, new Uint8Array(expected.length));
    expect([...box]).toEqual(expected);
  });
});

it.each(['0.5x20mm', '20x0.9mm', '10001mm', '1001x5cm', '400in', '0.00001mm'])(
  'refuses a size beyond 1 mm to 10 m: %s',
  (text) => {
    expect(() => parseSize(text)).toThrow(/Expected sides from 1 mm to 10 m for --size but received/);
  },
);

it('takes sizes up to both ends', () => {
  expect(parseSize('1x10000mm')).toEqual({ width: 1, height: 10_000 });
});
