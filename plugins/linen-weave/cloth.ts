import { modulo } from 'tenter';
import type { InkedFloats, LinenModel, YarnSet } from './model.ts';
import { placeInBox } from './threads.ts';

/**
 * A piece of the cloth laid flat: ends `firstEnd ..` and picks `firstPick ..` of the infinite plane,
 * so that whoever paints it need know nothing of repeats. Tables hold `picks` rows of `ends`.
 */
export interface ClothPiece {
  readonly firstEnd: number;
  readonly ends: number;
  readonly firstPick: number;
  readonly picks: number;
  /** 1 where the end lies over the pick. */
  readonly warpUp: Uint8Array;
  /** The float of the thread on top; empty where the cloth is not printed. */
  readonly floats: InkedFloats;
  readonly warp: PieceOfYarn;
  readonly weft: PieceOfYarn;
}

/** The yarns of one set at each crossing of a piece. */
export interface PieceOfYarn {
  readonly half: Float32Array;
  readonly tone: Float32Array;
  readonly offset: Float32Array;
  /** The sample of the fibre strip that lies on the crossing. */
  readonly fibre: Int32Array;
}

/** Cuts a piece out of the cloth. */
export function cutCloth(
  model: LinenModel,
  firstEnd: number,
  ends: number,
  firstPick: number,
  picks: number,
): ClothPiece {
  const warp = emptyPiece(ends * picks);
  const weft = emptyPiece(ends * picks);
  const warpUp = new Uint8Array(ends * picks);
  const { draft, ink } = model;
  const floats = emptyFloats(ink ? ends * picks : 0);
  for (let end = 0; end < ends; end++) {
    copyThread(model.warp, firstEnd + end, firstPick, picks, warp, end, ends);
    const column = modulo(firstEnd + end, draft.across);
    for (let pick = 0; pick < picks; pick++) {
      const from = modulo(firstPick + pick, draft.down) * draft.across + column;
      warpUp[pick * ends + end] = draft.warpUp[from];
      if (!ink) continue;
      floats.toMiddle[pick * ends + end] = ink.floats.toMiddle[from];
      floats.pull[pick * ends + end] = ink.floats.pull[from];
    }
  }
  for (let pick = 0; pick < picks; pick++) {
    copyThread(model.weft, firstPick + pick, firstEnd, ends, weft, pick * ends, 1);
  }
  return { firstEnd, ends, firstPick, picks, warpUp, floats, warp, weft };
}

function emptyFloats(size: number): InkedFloats {
  return { toMiddle: new Float32Array(size), pull: new Float32Array(size) };
}

function emptyPiece(size: number): PieceOfYarn {
  return {
    half: new Float32Array(size),
    tone: new Float32Array(size),
    offset: new Float32Array(size),
    fibre: new Int32Array(size),
  };
}

/** Copies `count` cells of a thread of the plane, from cell `first` on, to every `stride`-th place. */
function copyThread(
  set: YarnSet,
  thread: number,
  first: number,
  count: number,
  piece: PieceOfYarn,
  target: number,
  stride: number,
): void {
  const { fibres, threads } = set;
  let { thread: inThread, cell } = placeInBox(threads, thread, first);
  let strip = modulo(cell + fibres.start[inThread], fibres.cells);
  for (let k = 0, to = target; k < count; k++, to += stride) {
    const from = inThread * threads.cells + cell;
    piece.half[to] = set.half[from];
    piece.tone[to] = set.tone[from];
    piece.offset[to] = set.offset[from];
    piece.fibre[to] = strip * fibres.samples;
    if (++strip === fibres.cells) strip = 0;
    if (++cell === threads.cells) {
      cell = 0;
      inThread = modulo(inThread - threads.step, threads.count);
    }
  }
}
