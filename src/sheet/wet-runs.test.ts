import { describe, expect, it } from 'vitest';
import { findWetRuns } from './wet-runs.ts';

/** Runs of a line written with # for wet and . for dry. */
function runsOf(line: string): number[] {
  const film = Float64Array.from(line, (cell) => (cell === '#' ? 1 : -1));
  const found = new Int32Array(line.length + 2);
  return Array.from(found.subarray(0, findWetRuns(film, line.length, found)));
}

describe('runs of a closed line', () => {
  it.each([
    ['wet cells and the dry ones beside them', '...##...', [2, 4]],
    ['two that share a dry cell are one', '..#.#...', [1, 5]],
    ['two that stand apart are two', '.#...#..', [4, 3, 0, 3]],
    ['a run goes on past the end', '#......#', [6, 4]],
    ['a whole wet line is a loop', '########', [0, 8]],
    ['and so is one whose dry cells all have wet neighbours', '#.##.##.', [0, 8]],
    ['nothing of a dry line', '........', []],
  ])('%s', (_, line, runs) => {
    expect(runsOf(line)).toEqual(runs);
  });
});
