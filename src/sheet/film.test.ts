import { describe, expect, it } from 'vitest';
import { openLineStore, solveCyclic } from '../field/line-solver.ts';
import { solveLoop, solveRun } from './film.ts';

const COUNT = 40;
const any = (salt: number) =>
  Float64Array.from({ length: COUNT + 1 }, (_, k) => Math.abs(Math.sin(k * 12.9898 + salt) * 43758.5) % 1);

/** By the solver of `field`, with the face before each cell. */
function expected(faces: Float64Array, right: Float64Array, isLoop: boolean): Float64Array {
  const store = openLineStore(COUNT);
  for (let k = 0; k < COUNT; k++) {
    const before = k > 0 || isLoop ? faces[k] : 0;
    const after = k + 1 < COUNT ? faces[k + 1] : isLoop ? faces[0] : 0;
    store.lower[k] = -before;
    store.upper[k] = -after;
    store.diagonal[k] = 1 + before + after;
    store.right[k] = right[k];
  }
  solveCyclic(store, COUNT);
  return store.solution;
}

describe.each([
  ['run', false],
  ['loop', true],
] as const)('the film of a %s', (_, isLoop) => {
  const faces = any(1).map((value) => 1e3 * value ** 6);
  const right = any(2).map((value) => value - 0.3);
  const answer = new Float64Array(COUNT + 1);
  const [ratio, closing] = [new Float64Array(COUNT + 1), new Float64Array(COUNT + 1)];
  if (isLoop) solveLoop(0, COUNT - 1, faces, right, answer, { ratio, closing });
  else solveRun(0, COUNT - 1, faces, right, answer, ratio);

  it('is what the solver of closed lines finds', () => {
    const known = expected(faces, right, isLoop);
    for (let k = 0; k < COUNT; k++) expect(answer[k]).toBeCloseTo(known[k], 10);
  });

  // The maximum principle of an implicit diffusion (an M-matrix with rows that sum to 1).
  it('never goes beyond its highest and lowest, however long the step', () => {
    const [low, high] = [Math.min(...right.subarray(0, COUNT)), Math.max(...right.subarray(0, COUNT))];
    for (let k = 0; k < COUNT; k++) {
      expect(answer[k]).toBeGreaterThanOrEqual(low - 1e-12);
      expect(answer[k]).toBeLessThanOrEqual(high + 1e-12);
    }
  });
});
