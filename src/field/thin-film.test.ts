import { describe, expect, it } from 'vitest';
import {
  levelFilm,
  type SurfactantFilm,
  similarityHeight,
  similarityRadius,
  spreadSurfactant,
  sumOverRings,
} from './thin-film.ts';

const RADIUS = 6;

/** A film at rest with a small cap of surfactant in the middle. */
function filmAtRest(count: number): SurfactantFilm {
  const ringWidth = RADIUS / count;
  const surfactant = Float64Array.from({ length: count }, (_, i) =>
    Math.max(0, 20 * (1 - (((i + 0.5) * ringWidth) / 0.4) ** 2)),
  );
  return { ringWidth, height: new Float64Array(count).fill(1), surfactant };
}

/** Where the film falls back from the ridge to its rest: the outermost ring above 3/2. */
function frontOf({ height, ringWidth }: SurfactantFilm): number {
  let ring = height.length - 1;
  while (height[ring] < 1.5) ring--;
  return (ring + 1) * ringWidth;
}

describe('surfactant on a thin film (Jensen & Grotberg, J. Fluid Mech. 240, 1992)', () => {
  const film = filmAtRest(500);
  const charge = 2 * Math.PI * sumOverRings(film.ringWidth, film.surfactant);
  const depth = sumOverRings(film.ringWidth, film.height);
  const track: { time: number; front: number; peak: number; least: number }[] = [];
  let time = 0;
  for (const until of [1, 2, 4, 8, 12]) {
    spreadSurfactant(film, { duration: until - time, diffusion: 3e-4 });
    time = until;
    const least = Math.min(...film.height, ...film.surfactant);
    track.push({ time, front: frontOf(film), peak: Math.max(...film.height), least });
  }

  // The model's exponent, not nature's: Swanson et al. (arXiv 1306.4881) measured below 1/10 under a monolayer.
  it('spreads with the fourth root of time', () => {
    const [first, last] = [track[1], track[track.length - 1]];
    const exponent = Math.log(last.front / first.front) / Math.log(last.time / first.time);
    expect(exponent).toBeGreaterThan(0.245);
    expect(exponent).toBeLessThan(0.255);
  });
  it('stands where the similarity solution puts its front', () => {
    for (const { time: at, front } of track)
      expect(Math.abs(front / similarityRadius(charge, at) - 1)).toBeLessThan(0.01);
  });
  it('has a ridge twice as high as the film at rest, a little rounded by diffusion', () => {
    for (const { peak } of track.slice(0, 3)) {
      expect(peak).toBeGreaterThan(1.95);
      expect(peak).toBeLessThan(2.2);
    }
  });
  it('has the depth 2 xi^2 behind the front', () => {
    const radius = frontOf(film);
    for (const part of [0.3, 0.5, 0.7, 0.85]) {
      const ring = Math.floor((part * radius) / film.ringWidth);
      const there = ((ring + 0.5) * film.ringWidth) / radius;
      expect(Math.abs(film.height[ring] - similarityHeight(there))).toBeLessThan(0.07);
    }
  });
  it('keeps film and surfactant, and nothing falls below 0', () => {
    expect(sumOverRings(film.ringWidth, film.height) / depth).toBeCloseTo(1, 12);
    expect((2 * Math.PI * sumOverRings(film.ringWidth, film.surfactant)) / charge).toBeCloseTo(1, 12);
    expect(Math.min(...track.map(({ least }) => least))).toBeGreaterThanOrEqual(0);
  });
  it('goes the same way on rings twice as fine', () => {
    const fine = filmAtRest(1000);
    const coarse = filmAtRest(500);
    for (const each of [fine, coarse]) spreadSurfactant(each, { duration: 2, diffusion: 1e-3 });
    expect(frontOf(fine) / frontOf(coarse)).toBeCloseTo(1, 1.7);
  });
});

describe('a film that levels', () => {
  /** A dam of depth 1 within radius 1, on next to nothing. */
  const ringWidth = 0.01;
  const depth = Float64Array.from({ length: 300 }, (_, i) => (i < 100 ? 1 : 0));
  const stages: { time: number; front: number }[] = [];
  let time = 0;
  for (const until of [10, 20, 40, 80]) {
    levelFilm({ ringWidth, height: depth }, { duration: until - time, steps: 500 });
    time = until;
    stages.push({ time, front: depth.findLastIndex((value) => value > 0.02) * ringWidth });
  }

  // h = h0 (1 - (r / R)^2)^(1/3), R = (2^10 / (3^4 pi^3))^(1/8) (V^3 t)^(1/8): Huppert's 0.894.
  it('spreads with the eighth root of time (Huppert, J. Fluid Mech. 121, 1982)', () => {
    for (const { time: at, front } of stages)
      expect(Math.abs(front / (0.894 * (Math.PI ** 3 * at) ** 0.125) - 1)).toBeLessThan(0.03);
    const [first, last] = [stages[1], stages[3]];
    const exponent = Math.log(last.front / first.front) / Math.log(last.time / first.time);
    expect(exponent).toBeGreaterThan(0.115);
    expect(exponent).toBeLessThan(0.135);
  });
  it('keeps what there is, between the least and the most there was', () => {
    expect(sumOverRings(ringWidth, depth)).toBeCloseTo(0.5, 12);
    expect(Math.min(...depth)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...depth)).toBeLessThanOrEqual(1);
  });
  it('passes nothing where it is held, and all of it where it is not', () => {
    const inner = (passing: number) => {
      const height = Float64Array.from({ length: 100 }, (_, i) => (i < 50 ? 0.5 : 1));
      levelFilm({ ringWidth: 0.02, height }, { duration: 0.5, steps: 50, heldAt: 1, passing });
      return height[10];
    };
    expect(inner(0)).toBe(0.5);
    expect(inner(1)).toBeGreaterThan(0.6);
  });
  it('refuses a time of nothing', () => {
    const film = { ringWidth: 1, height: new Float64Array(3) };
    expect(() => levelFilm(film, { duration: 0, steps: 1 })).toThrow(/duration/);
  });
});
