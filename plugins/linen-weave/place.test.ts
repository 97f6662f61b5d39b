import { randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { makeLinen } from '../testing/linen-weave.ts';
import { cutCloth } from './cloth.ts';
import { draftOf, isWarpUp } from './draft.ts';
import { evenOut } from './neighbour.ts';
import { PUSH, PUSH_DECAY, placeThreads, togetherness } from './place.ts';
import { loopCount, placeInBox, type ThreadSet } from './threads.ts';
import { spinYarns } from './yarn.ts';

const SHAPE = { count: 10, cells: 15, pitch: 0.8, cellLength: 0.7 };
const SETS: ThreadSet[] = [
  { ...SHAPE, step: 0, slip: 0 },
  { ...SHAPE, step: 4, slip: 0 },
  { ...SHAPE, step: 0, slip: 6 },
];

describe.each(SETS)('threads with step $step and slip $slip', (set) => {
  const at = (thread: number, cell: number) => {
    const place = placeInBox(set, thread, cell);
    return place.thread * set.cells + place.cell;
  };

  it('every cell of the plane has one copy in the box', () => {
    for (const [thread, cell] of [
      [0, 0],
      [9, 14],
      [3, 7],
    ]) {
      expect(at(thread, cell + set.cells)).toBe(at(thread - set.step, cell));
      expect(at(thread + set.count, cell)).toBe(at(thread, cell - set.slip));
      expect(at(thread, cell)).toBe(thread * set.cells + cell);
    }
    expect(loopCount(set)).toBe(set.step === 4 ? 2 : 10);
  });

  it('push their neighbours, over the edge of the box too', () => {
    const half = 0.25;
    const character = { half, unevenness: 0.05, slubs: 0, tone: 0, straying: 0 };
    const tables = spinYarns(set, character, 1);
    const lattice = { ax: 15 * 0.7, ay: 0, bx: 0, by: 8 };
    const plain = togetherness(draftOf('plain', 0, 0), true);
    placeThreads(set, tables, plain, lattice, 0, randomStream('test', 'place'));
    for (const thread of [0, 1, 5, 9]) {
      for (const cell of [0, 4, 14]) {
        const pushes = [1, 2, 3].map(
          (reach) => tables.half[at(thread - reach, cell)] - tables.half[at(thread + reach, cell)],
        );
        const wanted = PUSH * (pushes[0] + PUSH_DECAY * pushes[1] + PUSH_DECAY ** 2 * pushes[2]);
        expect(tables.offset[thread * set.cells + cell]).toBeCloseTo(wanted, 5);
      }
    }
  });
});

describe.each(SETS)('evened threads with step $step and slip $slip', (set) => {
  it('lose most of what seventeen neighbours share', () => {
    const table = Float32Array.from({ length: set.count * set.cells }, (_, k) => Math.sin(k * k));
    const evened = evenOut(set, table, 0.5);
    const at = (thread: number, cell: number) => {
      const place = placeInBox(set, thread, cell);
      return table[place.thread * set.cells + place.cell];
    };
    for (const [thread, cell] of [
      [0, 0],
      [9, 14],
      [4, 3],
    ]) {
      const shared = Array.from({ length: 17 }, (_, k) => at(thread + k - 8, cell));
      const wanted = at(thread, cell) - 0.75 * (shared.reduce((sum, value) => sum + value) / 17 - 0.5);
      expect(evened[thread * set.cells + cell]).toBeCloseTo(wanted, 5);
    }
  });
});

describe('a piece of cloth', () => {
  it.each([
    ['drop:2/5', 'satin'],
    ['brick:1/3', 'twill'],
    ['straight', 'basket'],
  ])('at %s of %s holds the yarns and the weave of every crossing', (layout, weave) => {
    const { model } = makeLinen({ weave }, layout, '20x20mm');
    const { warp, weft, sett, draft } = model;
    const [firstEnd, firstPick] = [-2 * sett.ends - 7, 3 * sett.picks - 9];
    const piece = cutCloth(model, firstEnd, 2 * sett.ends, firstPick, 2 * sett.picks);
    for (let pick = 0; pick < piece.picks; pick += 3) {
      for (let end = 0; end < piece.ends; end += 5) {
        const here = pick * piece.ends + end;
        const onWarp = placeInBox(warp.threads, firstEnd + end, firstPick + pick);
        const onWeft = placeInBox(weft.threads, firstPick + pick, firstEnd + end);
        expect(piece.warp.half[here]).toBe(warp.half[onWarp.thread * warp.threads.cells + onWarp.cell]);
        expect(piece.weft.tone[here]).toBe(weft.tone[onWeft.thread * weft.threads.cells + onWeft.cell]);
        expect(piece.warpUp[here] === 1).toBe(isWarpUp(draft, firstEnd + end, firstPick + pick));
      }
    }
  });
});
