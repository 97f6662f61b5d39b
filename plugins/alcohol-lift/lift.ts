import { type Box, bilinearAt, type PeriodicField, type RandomStream, visitCopies } from 'tenter';
import { openMaps } from './compose.ts';
import type { Drop } from './drop.ts';
import { brushGround } from './ground.ts';
import type { Copies, DropRims, Ink, LiftModel } from './model.ts';
import { movedPaint } from './moved.ts';
import { shapeOutlines } from './outline.ts';
import { pourWash } from './paper.ts';
import { layPatches, type Patches } from './patch.ts';
import { profileBank, profileKind } from './profile.ts';
import { depthTables } from './tables.ts';
import { clamp } from './wetness.ts';

export interface LiftSpec {
  /** 0..1 */
  readonly rim: number;
  readonly tooth: number;
  readonly wash: number;
  readonly carry: number;
  readonly ink: Ink | undefined;
  /** As painters say: 0 poured to 2. */
  readonly brushwork: number;
  readonly hues: readonly [number, number, number] | undefined;
  /** 1 for the finished picture; more for a sketch. */
  readonly coarseness: number;
}

/** mm */
const MOVED_CELL = 0.3;
const STRIP = 2.5;

/** @param fallen In the order they fell. */
export function liftWash(
  box: Box,
  fallen: readonly Drop[],
  spec: LiftSpec,
  open: (name: string) => RandomStream,
  progress: (done: number) => void,
): LiftModel {
  const cell = MOVED_CELL * spec.coarseness;
  const poured = pourWash(box, cell, spec.wash, open('paper'));
  const wash = brushGround(box, poured.wash, spec.brushwork, spec.tooth, open, spec.coarseness > 1);
  const drops = fallen.map((drop) => ({ ...drop, stain: stainOn(drop, poured.wash) }));
  const rims = rimsOf(drops, spec.tooth);
  const outlines = shapeOutlines(box, drops, spec.tooth, open('outlines'));
  const bank = profileBank(spec.rim);
  const maps = openMaps(box, drops, outlines, bank, rims.kind);
  const patches = layPatches(maps, spec.coarseness, (done) => progress(0.1 + 0.5 * done));
  const moved = movedPaint(box, maps, cell, (done) => progress(0.6 + 0.3 * done));
  for (const { values } of [moved.x, moved.y, moved.bleed])
    for (let k = 0; k < values.length; k++) values[k] *= spec.carry;
  const paper = { ...poured, grain: wash.paper, settling: grainOf(wash.settling, spec.tooth) };
  for (let k = 0; k < paper.wash.values.length; k++) paper.wash.values[k] *= moved.slope.values[k];
  return {
    box,
    paper,
    patches,
    tables: depthTables(bank),
    rims,
    copies: copiesOf(box, patches),
    moved: spec.carry > 0 ? { x: moved.x, y: moved.y, bleed: moved.bleed } : undefined,
    ink: spec.ink,
    parted: spec.hues && { heavy: wash.heavy, hues: spec.hues, level: 0 },
    level: 1,
  };
}

/** A charge of spirit moves so much paint and no more: thin paint is swept off, deep paint only thinned. */
export function stainOn({ x, y, stain }: Drop, wash: PeriodicField): number {
  return Math.min(0.94, stain * clamp(1 + DEEPER * (bilinearAt(wash, x, y) - 1), 0.55, 2));
}

/** How much more stays where an even wash lies twice as deep, as a share. */
const DEEPER = 0.9;

/** How strongly paint settles, as deviations of the load: more on rough paper. */
function grainOf(settling: PeriodicField, tooth: number): PeriodicField {
  return { ...settling, values: settling.values.map((value) => (0.045 + 0.15 * tooth) * value) };
}

function rimsOf(drops: readonly Drop[], tooth: number): DropRims {
  return {
    kind: Uint8Array.from(drops, ({ form, softness, radius }) =>
      profileKind(form, softness, (0.22 + 0.5 * softness) / radius),
    ),
    stain: Float32Array.from(drops, ({ stain }) => stain),
    radius: Float32Array.from(drops, ({ radius }) => radius),
    fray: Float32Array.from(drops, ({ radius, softness }) =>
      Math.min(0.08, ((0.04 + 0.13 * tooth) * (1 + 1.6 * softness)) / radius),
    ),
    ink: Float32Array.from(drops, ({ ink }) => ink),
    grain: Float32Array.from(drops, ({ grain }) => grain),
  };
}

function copiesOf(box: Box, { left, top, cell, columns, rows }: Patches): Copies {
  const strips = Math.max(1, Math.ceil(box.height / STRIP));
  const lists: { drop: number; x: number; y: number }[][] = Array.from({ length: strips }, () => []);
  for (let k = 0; k < left.length; k++) {
    const width = columns[k] * cell[k];
    const height = rows[k] * cell[k];
    const around = { left: -width, top: -height, right: box.width, bottom: box.height };
    visitCopies(box.lattice, left[k], top[k], around, (x, y) => {
      const last = Math.min(strips - 1, Math.floor(((y + height) / box.height) * strips));
      for (let strip = Math.max(0, Math.floor((y / box.height) * strips)); strip <= last; strip++)
        lists[strip].push({ drop: k, x: x - left[k], y: y - top[k] });
    });
  }
  const starts = new Int32Array(strips + 1);
  lists.forEach((list, k) => {
    starts[k + 1] = starts[k] + list.length;
  });
  const all = lists.flat();
  return {
    strips,
    starts,
    drop: Int32Array.from(all, ({ drop }) => drop),
    awayX: Float64Array.from(all, ({ x }) => x),
    awayY: Float64Array.from(all, ({ y }) => y),
  };
}
