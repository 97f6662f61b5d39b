import { boxOf, parseLayout } from 'tenter';
import { openSetting } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { layBoards, type WoodSetting } from './boards.ts';
import wood from './index.ts';
import type { PieceDraft } from './piece.ts';

/** 120 boards of a floor. */
function floorBoards(): readonly PieceDraft[] {
  const box = boxOf({ layout: parseLayout('straight'), width: 1200, height: 2000 });
  const parameters = { boardWidth: 100, boardLength: 200 };
  const { setting } = openSetting(wood, { box, seed: '1', parameters });
  return layBoards(setting as unknown as WoodSetting).drafts;
}

/** Where across a board its rings lie nearest to the pith, 0..1, and how near, mm. */
function heartAt({ width, field }: PieceDraft, v: number) {
  const sample = { radius: 0, wash: 0, drift: 0, ray: 0 };
  let [least, place] = [Number.POSITIVE_INFINITY, 0];
  for (let u = 0; u <= width; u += 2) {
    field(u, v, sample);
    if (sample.radius < least) [least, place] = [sample.radius, u / width];
  }
  return { least, place };
}

describe('boards of one floor', () => {
  const boards = floorBoards();

  it('lie either way, and seldom as the one before', () => {
    const isUp = boards.map((board) => heartAt(board, 10).least < heartAt(board, board.length - 10).least);
    const turned = isUp.filter((up, k) => k > 0 && up !== isUp[k - 1]).length;
    expect(turned / boards.length).toBeGreaterThan(0.5);
    expect(turned / boards.length).toBeLessThan(0.9);
  });

  it('have their hearts in the middle, far aside or not at all', () => {
    const places = boards.map((board) => heartAt(board, board.length / 2).place);
    const edge = places.filter((place) => place < 0.12 || place > 0.88).length;
    const middle = places.filter((place) => place > 0.3 && place < 0.7).length;
    expect(edge).toBeGreaterThan(12);
    expect(middle).toBeGreaterThan(30);
  });

  it('are not of one tone', () => {
    const lights = boards.map(({ lightness }) => lightness);
    expect(Math.max(...lights) - Math.min(...lights)).toBeGreaterThan(0.2);
  });
});
