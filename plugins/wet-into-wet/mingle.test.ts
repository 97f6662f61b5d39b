import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';

const SIZE = '60x50mm';

function bleedOf(
  values: Record<string, unknown>,
  options: { dpi?: number; quality?: 'sketch' | 'finished' } = {},
) {
  const made = makeWet(values, 'drop:1/2', SIZE, options);
  const { width, height } = made.grid;
  return { ...paintWet(made, 0, 0, width, height), width, height };
}

/** The value that a share of the pixels lie below. */
function below(values: Float32Array, share: number): number {
  return Float32Array.from(values).sort()[Math.floor(share * (values.length - 1))];
}

describe('colours in wet passages', () => {
  it('mingle further the wetter the sheet, and in proportion to the way that the flow carries them', () => {
    const mean = (values: Record<string, unknown>) => meanOf(bleedOf(values, { dpi: 50 }).bleed);
    expect(mean({ wetness: 0.8 })).toBeGreaterThan(2 * mean({ wetness: 0.3 }));
    expect(mean({ move: 3 }) / mean({ move: 1.5 })).toBeCloseTo(2, 3);
    expect(mean({ move: 0 })).toBe(0);
  });

  it('mingle in places, and stay crisp in others', () => {
    const { bleed } = bleedOf({ wetness: 0.48 }, { dpi: 50 });
    expect(below(bleed, 0.05)).toBeLessThan(0.16);
    expect(below(bleed, 0.95)).toBeGreaterThan(0.5);
  });

  it('mingle alike in a sketch, and at 75 dpi as at 300', () => {
    const [finished, sketch] = (['finished', 'sketch'] as const).map((quality) =>
      bleedOf({}, { dpi: 50, quality }),
    );
    expect(correlation(finished.bleed, sketch.bleed)).toBeGreaterThan(0.97);
    const near = bleedOf({}, { dpi: 304.8 });
    const far = bleedOf({}, { dpi: 76.2 });
    const seen = boxFiltered(near.bleed, near.width, 4);
    expect(correlation(seen, far.bleed)).toBeGreaterThan(0.99);
  });

  it('settle in patches: some of the sheet is silky', () => {
    const { model } = makeWet({ granulation: 100 }, 'drop:1/2', '200x160mm');
    const { values } = model.settled;
    expect(below(values, 0.2)).toBeLessThan(0.35 * below(values, 0.8));
  });
});
