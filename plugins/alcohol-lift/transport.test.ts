import { boxOf, parseLayout, parseSize, randomStream, similarityHeight, spreadSurfactant } from 'tenter';
import { describe, expect, it } from 'vitest';
import { PLAIN_DROP } from '../testing/alcohol-lift.ts';
import { lookUp, openMaps, pullBack, pushOn, sourceAt } from './compose.ts';
import type { Drop } from './drop.ts';
import { LEAST_SOURCE, movedPaint } from './moved.ts';
import { shapeOutlines } from './outline.ts';
import { type Profile, profileBank, profileOf, REACH, RINGS } from './profile.ts';
import type { Outlines } from './turn.ts';

const box = boxOf({ layout: parseLayout('drop:1/2'), ...parseSize('40x30mm') });
function mapsOf(drops: readonly Drop[], bank: readonly Profile[], kinds = drops.map(() => 0)) {
  return mapsWithin(drops, outlinesOf(drops), bank, kinds);
}

function outlinesOf(drops: readonly Drop[]) {
  return shapeOutlines(box, drops, 0.5, randomStream('t', 'outlines'));
}

function mapsWithin(
  drops: readonly Drop[],
  outlines: Outlines,
  bank: readonly Profile[],
  kinds = drops.map(() => 0),
) {
  return openMaps(box, drops, outlines, bank, Uint8Array.from(kinds));
}

/** The exact law: source = part within the front, nothing moved beyond. */
const similarity: Profile = (() => {
  const parts = Float32Array.from({ length: RINGS + 1 }, (_, k) => (k * REACH) / RINGS);
  const depth = parts.map((part) => similarityHeight(part));
  const source = parts.map((part) => Math.min(1, part));
  return { strong: depth, weak: depth, strongSource: source, weakSource: source };
})();

/** Determinant of the map back, by differences: how much of the sheet at rest each piece holds. */
function depthAt(maps: ReturnType<typeof mapsOf>, x: number, y: number): number {
  const e = 1e-3;
  const back = (px: number, py: number) => {
    const point = { x: px, y: py };
    pullBack(maps, point, -1);
    return point;
  };
  const [l, r, t, b] = [back(x - e, y), back(x + e, y), back(x, y - e), back(x, y + e)];
  return ((r.x - l.x) * (b.y - t.y) - (b.x - t.x) * (r.y - l.y)) / (4 * e * e);
}

describe('a drop as a map', () => {
  const maps = mapsOf([PLAIN_DROP], [similarity]);

  // Jensen & Grotberg, J. Fluid Mech. 240 (1992): h = 2 xi^2 behind the front, 1 beyond.
  it('holds the paint of the similarity solution', () => {
    for (const part of [0.2, 0.4, 0.6, 0.8, 0.95, 1.3])
      for (const angle of [0.3, 1.9, 4.4]) {
        const depth = depthAt(maps, 20 + 4 * part * Math.cos(angle), 15 + 4 * part * Math.sin(angle));
        expect(Math.abs(depth - similarityHeight(part))).toBeLessThan(0.02);
      }
  });
  it('is the way that paint goes on the simulated film', () => {
    const count = 800;
    const ringWidth = 6 / count;
    const film = {
      ringWidth,
      height: new Float64Array(count).fill(1),
      surfactant: Float64Array.from({ length: count }, (_, i) =>
        Math.max(0, 20 * (1 - (((i + 0.5) * ringWidth) / 0.4) ** 2)),
      ),
    };
    spreadSurfactant(film, { duration: 12, diffusion: 1e-4 });
    let front = count - 1;
    while (film.height[front] < 1.5) front--;
    const radius = (front + 1) * ringWidth;
    // What lies within r now lay within r0 at rest: r0^2 / 2 is the volume within r.
    let volume = 0;
    for (let i = 0; i < front; i++) {
      volume += (i + 0.5) * ringWidth ** 2 * film.height[i];
      const part = ((i + 1) * ringWidth) / radius;
      if (part < 0.35) continue;
      const came = Math.sqrt(2 * volume) / ((i + 1) * ringWidth);
      expect(Math.abs(came - sourceAt(maps, 0, 1, part))).toBeLessThan(0.06);
    }
  });
});

describe('profiles', () => {
  const kept = (depth: Float32Array, source: Float32Array) => {
    let within = 0;
    let worst = 0;
    for (let k = 1; k <= RINGS; k++) {
      const [inner, outer] = [((k - 1) * REACH) / RINGS, (k * REACH) / RINGS];
      within += 0.5 * (depth[k - 1] + depth[k]) * (outer ** 2 - inner ** 2);
      worst = Math.max(worst, Math.abs(within - (outer * source[k]) ** 2));
    }
    return { worst, all: source[RINGS] };
  };
  it.each([0, 0.5, 1])('with a rim of %f keep their paint, in every ring', (rim) => {
    for (const { weak, strong, weakSource, strongSource } of profileBank(rim)) {
      for (const [depth, source] of [
        [weak, weakSource],
        [strong, strongSource],
      ]) {
        const { worst, all } = kept(depth, source);
        expect(worst).toBeLessThan(0.02);
        expect(Math.abs(all - 1)).toBeLessThan(1e-6);
        expect(Math.min(...depth)).toBeGreaterThanOrEqual(0);
        // The heap of a hard rim; painting bends whatever stands above 1.3.
        expect(Math.max(...depth)).toBeLessThan(7.5);
      }
    }
  });
  it('of drops fed for long are flat and nearly bare, and end at a wall', () => {
    const shape = {
      closing: 0,
      crest: 0,
      crestWidth: 0.05,
      eye: 0,
      backrun: 0,
      returned: 0,
      returnedTo: 0.5,
      blur: [0, 0] as const,
      levelling: 0.05,
    };
    const { weak } = profileOf({ ...shape, feed: 15 });
    const at = (part: number) => weak[Math.round((part * RINGS) / REACH)];
    expect(at(0.6)).toBeLessThan(0.01);
    expect(at(1.03) - at(0.93)).toBeGreaterThan(0.8);
  });
});

describe('composed drops', () => {
  const random = randomStream('t', 'drops');
  const drops: Drop[] = Array.from({ length: 30 }, (_, k) => ({
    ...PLAIN_DROP,
    x: random.between(0, 40),
    y: random.between(0, 30),
    radius: random.between(0.6, 3.5),
    time: k,
    stain: random.between(0.1, 0.6),
    lobes: 1,
    stretch: 0.2,
  }));
  const maps = mapsOf(
    drops,
    profileBank(0.5),
    drops.map((_, k) => k % 72),
  );

  /** What each drop in turn left at a place, multiplied: found without the index, by trying every copy. */
  function depthsAt(x: number, y: number): number {
    let product = 1;
    for (let k = 0; k < drops.length; k++) {
      const point = { x, y };
      pullBack(maps, point, k);
      const { stain } = drops[k];
      const profile = maps.bank[maps.kinds[k]];
      for (let m = -2; m <= 2; m++)
        for (let n = -3; n <= 3; n++) {
          const dx = point.x - drops[k].x - 40 * m;
          const dy = point.y - drops[k].y - 15 * m - 30 * n;
          const { radius, rim } = lookUp(maps.outlines, k, dx, dy);
          const place = (Math.hypot(dx, dy) / radius / REACH) * RINGS;
          if (place >= RINGS) continue;
          const ring = Math.floor(place);
          const within = (table: Float32Array) =>
            table[ring] + (place - ring) * (table[ring + 1] - table[ring]);
          const [weak, strong] = [within(profile.weak), within(profile.strong)];
          product *= stain + (1 - stain) * (weak + rim * (strong - weak));
        }
    }
    return product;
  }

  it('keep the paint: its depth is the determinant of the way back', () => {
    let moved = 0;
    const off: number[] = [];
    for (let k = 0; k < 400; k++) {
      const [x, y] = [random.between(0, 40), random.between(0, 30)];
      const depth = depthAt(maps, x, y);
      off.push(Math.abs(depthsAt(x, y) - depth));
      moved = Math.max(moved, Math.abs(depth - 1));
    }
    off.sort((a, b) => a - b);
    // Walls and crests are a few rings wide, and differences of places blur them.
    expect(off[Math.floor(0.9 * off.length)]).toBeLessThan(0.03);
    expect(moved).toBeGreaterThan(0.5);
  });
  it('are undone by going on: forward and back is home', () => {
    for (let k = 0; k < 200; k++) {
      const [x, y] = [random.between(-40, 80), random.between(-30, 60)];
      const point = { x, y };
      pushOn(maps, point, -1);
      pullBack(maps, point, -1);
      // A third of a cell of the shift: rims that come and go steeply are read between two profiles.
      expect(Math.hypot(point.x - x, point.y - y)).toBeLessThan(0.1);
    }
  });
  it('move with their drops: all moved by whole cells is the same field moved', () => {
    // The paper that shaped the drops stays where it is, so their outlines are taken along.
    const [outlines, bank] = [outlinesOf(drops), profileBank(0.5)];
    const still = movedPaint(box, mapsWithin(drops, outlines, bank), 0.5, () => {});
    const shifted = drops.map((drop) => ({ ...drop, x: drop.x + 7 * 0.5, y: drop.y + 12 * 0.5 }));
    const moved = movedPaint(box, mapsWithin(shifted, outlines, bank), 0.5, () => {});
    const { width, height, lattice } = still.x;
    let worst = 0;
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++) {
        const turn = Math.floor((i + 7) / width);
        const row = (((j + 12 - turn * lattice.ay) % height) + height) % height;
        const there = ((i + 7) % width) + row * width;
        worst = Math.max(worst, Math.abs(moved.x.values[there] - still.x.values[j * width + i]));
      }
    expect(worst).toBeLessThan(1e-4);
    expect(Math.max(...still.x.values)).toBeGreaterThan(0.2);
  });
});

describe('the paint that moved', () => {
  it('came from nearer the middle of its drop, and from where it is beyond the reach', () => {
    const maps = mapsOf([PLAIN_DROP], [similarity]);
    // Fingers sweep further; without them it is the law alone.
    maps.outlines.finger.fill(0);
    const { x, y } = movedPaint(box, maps, 0.5, () => {});
    const { width, height } = x;
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++) {
        const [dx, dy] = [(i + 0.5) * 0.5 - PLAIN_DROP.x, (j + 0.5) * 0.5 - PLAIN_DROP.y];
        const distance = Math.hypot(dx, dy);
        const [wayX, wayY] = [x.values[i + j * width], y.values[i + j * width]];
        // Without a stain all of it moved: by r (xi - 1), straight along the radius.
        const came = Math.max(LEAST_SOURCE, distance / PLAIN_DROP.radius);
        const way = distance < PLAIN_DROP.radius ? distance * (came - 1) : 0;
        expect(Math.abs(wayX - (way * dx) / distance)).toBeLessThan(0.03);
        expect(Math.abs(wayY - (way * dy) / distance)).toBeLessThan(0.03);
      }
  });
});
