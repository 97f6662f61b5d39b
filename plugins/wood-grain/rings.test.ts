import { randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { prepared } from '../testing/wood-grain.ts';
import type { WoodModel } from './model.ts';
import { ringBounds, ringTable, toneOver } from './rings.ts';
import { SPECIES } from './species.ts';

const random = () => randomStream('rings', 'test');

describe('ring widths', () => {
  it('add up to the mean times the count', () => {
    const bounds = ringBounds(97, 2.6, 0.4, random());
    expect(bounds[97]).toBe(97 * 2.6);
    for (let k = 0; k < 97; k++) expect(bounds[k + 1]).toBeGreaterThan(bounds[k]);
  });

  // Typical ring widths, mm: oak 1-4, ash 1-5, Scots pine 1-4 (handbook figures, from memory); walnut
  // as wide as oak or wider. At the default mean of each species most rings must lie in that range.
  it.each([
    ['oak', 2.4, 1, 4],
    ['ash', 2.8, 1, 5],
    ['pine', 2.5, 1, 4],
    ['walnut', 3.4, 1, 6],
  ] as const)('of %s with a mean of %f mm lie between %f and %f mm', (name, mean, low, high) => {
    const bounds = ringBounds(4000, mean, SPECIES[name].ringSpread, random());
    const widths = Array.from({ length: 4000 }, (_, k) => bounds[k + 1] - bounds[k]);
    const inside = widths.filter((width) => width >= low && width <= high).length / 4000;
    expect(inside).toBeGreaterThan(0.9);
    const deviation = Math.sqrt(widths.reduce((sum, width) => sum + (width - mean) ** 2, 0) / 4000);
    // Coefficients of variation of ring width are commonly 0.3 to 0.4 (from memory, so loosely).
    expect(deviation / mean).toBeGreaterThan(0.25);
    expect(deviation / mean).toBeLessThan(0.45);
  });
});

describe('latewood', () => {
  // Scots pine: 20 to 40 % of a ring (from memory). Latewood is where the tone is nearer to the
  // darkest than to the palest.
  it('takes a fifth to two fifths of a ring of pine, at its bark side', () => {
    const { profile, latewood } = SPECIES.pine;
    const dark = Array.from({ length: 1000 }, (_, k) => profile((k + 0.5) / 1000, latewood) > 0.5);
    const share = dark.filter(Boolean).length / 1000;
    expect(share).toBeGreaterThan(0.2);
    expect(share).toBeLessThan(0.4);
    expect(dark[999]).toBe(true);
    expect(dark[0]).toBe(false);
  });

  // Ring-porous woods open the ring with their wide vessels (any wood handbook: oak, ash).
  it.each(['oak', 'ash'] as const)('of %s is paler than the porous start of the ring', (name) => {
    const { profile, latewood } = SPECIES[name];
    expect(profile(0.02, latewood)).toBeGreaterThan(2 * profile(0.7, latewood));
  });
});

describe('the ring table', () => {
  it('gives the mean over any stretch of radius', () => {
    const table = ringTable(SPECIES.pine, 40, 2.5, 10, 80, random());
    for (const [radius, width] of [
      [20, 0.1],
      [33.3, 1.7],
      [60, 9],
    ]) {
      let sum = 0;
      for (let k = 0; k < 2000; k++) {
        sum += toneOver(table, radius + width * ((k + 0.5) / 2000 - 0.5), 1e-4);
      }
      expect(toneOver(table, radius, width)).toBeCloseTo(sum / 2000, 3);
    }
  });

  it('means to half where the tone climbs evenly from 0 to 1', () => {
    const even = {
      profile: (t: number) => t,
      latewood: 0.5,
      latewoodSpread: 0,
      ringSpread: 0,
      drift: 0,
      spells: 0,
    };
    const table = ringTable(even, 10, 2, 0, 20, { ...random(), next: () => 1 });
    expect(toneOver(table, 10, 20)).toBeCloseTo(0.5, 2);
    expect(toneOver(table, 5.5, 0.2)).toBeCloseTo(0.75, 1);
  });

  it('comes round after its period', () => {
    const table = ringTable(SPECIES.oak, 12, 2.5, -40, 80, random());
    for (const radius of [-20.3, 0, 11.7]) {
      expect(toneOver(table, radius + 30, 0.5)).toBeCloseTo(toneOver(table, radius, 0.5), 6);
    }
  });
});

describe('the ring count of a veneer', () => {
  /** Ring borders met on a walk over the nodes, across and then along, counted up outward and down inward. */
  function signedCrossings(model: WoodModel, across: number, along: number): number {
    const { grid } = model.pieces[0];
    const { perMmU, perMmV, columns, base } = grid;
    // A little off the nodes: a border that falls on the first must not fall on the last.
    const ringAt = (c: number, r: number) =>
      Math.floor((model.nodes.radius[base + 3 + c + (3 + r) * columns] + 0.01) / RING);
    const [right, down] = [Math.round(across * perMmU), Math.round(along * perMmV)];
    let count = 0;
    for (let c = 0; c < right; c++) count += ringAt(c + 1, 0) - ringAt(c, 0);
    for (let r = 0; r < down; r++) count += ringAt(right, r + 1) - ringAt(right, r);
    return count;
  }
  const RING = 2.6;

  it.each(
    ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3', 'brick:1/2'].flatMap((layout) =>
      (['plain', 'rift', 'quarter'] as const).map((cut) => [layout, cut] as const),
    ),
  )('over %s, %s-sawn, is the one reported', (layout, cut) => {
    const { model, figures, box } = prepared(layout, 210, 160, {
      construction: 'veneer',
      cut,
      ringWidth: RING,
    });
    const { ax, ay, by } = box.lattice;
    expect(signedCrossings(model, ax, ay)).toBe(figures.get('rings across'));
    expect(signedCrossings(model, box.lattice.bx, by)).toBe(alongOf(figures, layout, cut));
    const most = Math.max(Math.abs(figures.get('rings across')!), Math.abs(figures.get('rings along')!));
    expect(most).toBeGreaterThan(2);
  });

  /** Straight grain is set off by its share of the rings from brick row to brick row. */
  function alongOf(figures: ReadonlyMap<string, number>, layout: string, cut: string): number {
    const share = { 'brick:1/3': 1 / 3, 'brick:1/2': 1 / 2 }[layout] ?? 0;
    return cut === 'plain' ? figures.get('rings along')! : figures.get('rings across')! * share;
  }
});
