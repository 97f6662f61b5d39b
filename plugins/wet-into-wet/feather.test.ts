import { type Artwork, boxOf, fieldShape, fractalNoise, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { featherArtwork } from './feather.ts';

const box = boxOf({ layout: parseLayout('straight'), width: 60, height: 40 });
const shape = fieldShape(box, 0.5);
const noise = fractalNoise(
  box.lattice,
  { along: 4, across: 4 },
  { octaves: 2, gain: 0.7 },
  randomStream('t', 'n'),
);
const field = (at: (x: number) => number) => ({
  ...shape,
  values: Float32Array.from({ length: shape.width * shape.height }, (_, k) =>
    at(((k % shape.width) + 0.5) * shape.mmPerCellX),
  ),
});
/** Paper with a dark stripe from 20 to 20 + `wide` mm. */
function striped(wide: number): Artwork {
  const light = field((x) => (x > 20 && x < 20 + wide ? 0.1 : 0.9)).values;
  return { ...shape, red: light, green: light, blue: light, alpha: light.slice().fill(1) };
}
const wet = field(() => 1);
const places = (from: number, to: number) =>
  Array.from({ length: shape.width * shape.height }, (_, k) => k).filter((k) => {
    const x = ((k % shape.width) + 0.5) * shape.mmPerCellX;
    return x > from && x < to;
  });

describe('paint of the artwork where it is wetted', () => {
  const { x, y, load } = featherArtwork(striped(20), wet, 2, noise)!;

  it('comes from the dark side of an edge, in fingers, and no farther than it may', () => {
    const left = places(17, 20).map((k) => x.values[k]);
    const right = places(40, 43).map((k) => x.values[k]);
    expect(Math.min(...left)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...right)).toBeLessThanOrEqual(0);
    expect(Math.max(...left)).toBeGreaterThan(2);
    expect(left.some((mm) => mm < 0.3)).toBe(true);
    for (let k = 0; k < x.values.length; k++) expect(Math.hypot(x.values[k], y.values[k])).toBeLessThan(12);
  });

  it('runs thin, with a line where it stopped, and is as it was far from edges', () => {
    const ran = places(16, 20).map((k) => load.values[k]);
    expect(Math.min(...ran)).toBeLessThan(-0.1);
    expect(Math.max(...ran)).toBeGreaterThan(0.1);
    for (const k of places(3, 8)) expect(Math.abs(load.values[k])).toBeLessThan(1e-6);
  });

  it('never reaches beyond a thin stem to the ground on its other side', () => {
    const stem = featherArtwork(striped(1.5), wet, 3, noise)!;
    for (const k of places(10, 20)) {
      const at = ((k % shape.width) + 0.5) * shape.mmPerCellX + stem.x.values[k];
      expect(at).toBeLessThan(22);
    }
  });

  it('stays where nothing is wetted, and on an even ground', () => {
    const dry = featherArtwork(
      striped(20),
      field(() => 0),
      2,
      noise,
    )!;
    expect(Math.max(...dry.x.values.map(Math.abs))).toBe(0);
    expect(featherArtwork(striped(0), wet, 2, noise)).toBeUndefined();
  });
});
