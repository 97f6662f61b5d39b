import { describe, expect, it } from 'vitest';
import { openGates } from './gate.ts';
import { MARGIN, openRunStore } from './run-store.ts';
import { STILL } from './testing/sheets.ts';

/** A run of dry paper with a film of some depth on its middle cell; `pin` of its neighbours. */
function gates(depth: number, pin: number, fall = 0, suction = 0) {
  const count = 5;
  const run = openRunStore(count);
  run.film.fill(-0.2);
  run.film[MARGIN + 2] = depth;
  run.depth[MARGIN + 2] = depth;
  run.pin.fill(pin);
  run.ease.fill(1);
  openGates(run, count, { ...STILL, suction }, fall);
  const face = (k: number) => ({ opens: run.mobility[MARGIN + k] > 0, drinks: run.flux[MARGIN + k] });
  return { left: face(2), right: face(3), far: face(1) };
}

describe('the gate between wet and dry', () => {
  it('is shut up to the depth that the dry cell pins, and open from there on', () => {
    for (const pin of [0.02, 0.16, 0.9]) {
      expect(gates(0.999 * pin, pin).right.opens).toBe(false);
      expect(gates(1.001 * pin, pin).right.opens).toBe(true);
    }
  });

  it('is alike to both sides, and nothing passes between dry cells', () => {
    const { left, right, far } = gates(0.5, 0.1, 0, 1);
    expect(left.opens && right.opens).toBe(true);
    expect(left.drinks).toBe(-right.drinks);
    expect(right.drinks).toBeGreaterThan(0);
    expect(far.opens).toBe(false);
  });

  it('on a tilted sheet opens downhill sooner than uphill', () => {
    const { left, right } = gates(0.1, 0.105, 0.1);
    expect([left.opens, right.opens]).toEqual([false, true]);
    const turned = gates(0.1, 0.105, -0.1);
    expect([turned.left.opens, turned.right.opens]).toEqual([true, false]);
  });
});
