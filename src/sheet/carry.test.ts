import { describe, expect, it } from 'vitest';
import { movePaint, passPaint, sharesOfFlux } from './carry.ts';
import { MARGIN, openRunStore } from './run-store.ts';

const COUNT = 24;

/** A run in the middle of a line, its shores shut. */
function runOf(amountAt: (k: number) => number, fluxAt: (k: number) => number, depthAt = (_: number) => 1) {
  const run = openRunStore(COUNT);
  for (let k = 0; k < COUNT; k++) {
    run.cells[MARGIN + k] = k;
    run.amount[MARGIN + k] = amountAt(k);
    run.depth[MARGIN + k] = depthAt(k);
    if (k > 0) run.flux[MARGIN + k] = fluxAt(k);
  }
  return run;
}

describe('paint carried along a run', () => {
  it('is kept, and never less than none, however fast the water', () => {
    const run = runOf(
      (k) => (k % 5 === 0 ? 4 : 0.1 * (k % 3)),
      (k) => 5 * Math.sin(3 * k),
    );
    const paint = new Float32Array(COUNT);
    const before = run.amount.reduce((sum, amount) => sum + amount);
    sharesOfFlux(run, COUNT);
    passPaint(run, COUNT, 1, 10);
    movePaint(run, COUNT, paint);
    expect(paint.reduce((sum, amount) => sum + amount)).toBeCloseTo(before, 5);
    expect(Math.min(...paint)).toBeGreaterThanOrEqual(0);
  });

  it('goes over a front into dry paper only in part: the rest is left behind', () => {
    const gone = (passing: number) => {
      const run = runOf(
        () => 1,
        (k) => (k === 12 ? 0.2 : 0),
        (k) => (k < 12 ? 1 : 0),
      );
      sharesOfFlux(run, COUNT);
      passPaint(run, COUNT, passing, 0);
      return run.passed[MARGIN + 12];
    };
    expect(gone(0.5)).toBeCloseTo(0.5 * gone(1), 12);
    expect(gone(1)).toBeCloseTo(0.2, 3);
  });
});
