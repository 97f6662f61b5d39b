import { expect, it } from 'vitest';
import { cutSteps } from './cut-steps.ts';

/** Two flat pieces that are alike up to column 12, where in one of them a motif begins. */
function motifFrom(column: number) {
  const [across, along] = [24, 24];
  const local = new Float32Array(4 * across * along);
  for (let cell = 0; cell < across * along; cell++)
    if (cell % across >= column) local.fill(0.6, 4 * cell, 4 * cell + 3);
  return { across, along, levels: new Float32Array(4 * along), local };
}

it('half a motif is no tone: beside its rim nothing is evened, and no colour runs out of it', () => {
  // Means would find 0.24 here: two columns of five.
  const stepAt = cutSteps(motifFrom(12), false, 0.1);
  expect(stepAt(15 + 12 * 24)).toEqual([0, 0, 0]);
});

it('what differs all over is a step', () => {
  const stepAt = cutSteps(motifFrom(0), false, 0.1);
  for (const step of stepAt(15 + 12 * 24)) expect(step).toBeCloseTo(0.6, 6);
});
