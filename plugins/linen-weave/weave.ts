import type { Box, Lattice, RandomStream } from 'tenter';
import { clothCover, yarnDiameter } from './count.ts';
import { type Draft, draftOf, type Weave, warpShare } from './draft.ts';
import { farLightOf } from './far.ts';
import { drawFibres } from './fibre.ts';
import { inkOn } from './ink.ts';
import { type Lighting, lightYarn } from './light.ts';
import type { LinenModel, YarnSet } from './model.ts';
import { placeThreads, togetherness } from './place.ts';
import { snapSett } from './sett.ts';
import { type ThreadSet, warpThreads, weftThreads } from './threads.ts';
import { spinYarns } from './yarn.ts';

/** What a linen is made from; the effect's parameters in the units of the model. */
export interface LinenSpec {
  readonly weave: Weave;
  readonly order: number;
  readonly move: number;
  readonly endsPerMm: number;
  readonly picksPerMm: number;
  readonly warpTex: number;
  readonly weftTex: number;
  /** Deviation of the log of the yarns' width. */
  readonly unevenness: number;
  readonly slubsPerMetre: number;
  /** Deviation of the tone from yarn to yarn. */
  readonly tone: number;
  /** Deviation of the light from fibre to fibre. */
  readonly streaks: number;
  /** How far threads stray, 1 as in a hand-woven linen. */
  readonly straying: number;
  readonly lighting: Lighting;
  /** How dark it is between the threads, 0..1. */
  readonly gapDarkness: number;
  /** sRGB, 0..1 each. */
  readonly warpColour: readonly [number, number, number];
  readonly weftColour: readonly [number, number, number];
  /** Strength of the yarn colours, 0..1. */
  readonly dye: number;
  /** How far the artwork is a print on top of the threads, 0..1. */
  readonly inked: number;
}

/** Width over thickness of a yarn in the cloth: off the loom, and what wear adds. */
const FLATTENING = 1.5;
const FLATTENING_OF_WEAR = 0.9;
/** Beyond this share of the pitch threads of one set cannot lie side by side: they are pressed narrower. */
const FULLEST = 1.06;
/** Deviation of the edges, of half the width. */
const FRAY = 0.1;
/** Turns per metre; Z twist leans one way on the warp and the other, as seen along the yarn, on the weft. */
const TWIST_PER_METRE = 260;
/** Deviations of straying 1, in pitches: a thread by itself, and the cloth as a whole. */
const OWN_STRAYING = 0.08;
const CLOTH_STRAYING = 0.22;

/** Weaves a cloth. The shade of the model is not yet levelled: see `level.ts`. */
export function weaveLinen(spec: LinenSpec, box: Box, random: (name: string) => RandomStream): LinenModel {
  const draft = draftOf(spec.weave, spec.order, spec.move);
  const sett = snapSett(draft, box, spec.endsPerMm, spec.picksPerMm);
  const { ax, ay, bx, by } = box.lattice;
  const across = { ax: by, ay: bx, bx: ay, by: ax };
  const warpThickness = thicknessOf(spec.warpTex, sett.endPitch, spec);
  const weftThickness = thicknessOf(spec.weftTex, sett.pickPitch, spec);
  // Peirce 1937: the two crimp heights add up to the two thicknesses; here they share them evenly.
  const rise = (warpThickness + weftThickness) / 4;
  const make = (isWarp: boolean, tex: number, thickness: number, threads: ThreadSet, lattice: Lattice) =>
    makeSet(spec, draft, isWarp, tex, thickness, rise, threads, lattice, random);
  const warp = make(true, spec.warpTex, warpThickness, warpThreads(sett), across);
  const weft = make(false, spec.weftTex, weftThickness, weftThreads(sett), box.lattice);
  const coverOf = (set: YarnSet) => Math.min(1, (2 * set.evenHalf) / set.threads.pitch);
  return {
    sampling: 1,
    draft,
    sett,
    width: box.width,
    height: box.height,
    warp,
    weft,
    far: farLightOf(warp, weft, 1 - spec.gapDarkness),
    cover: clothCover(coverOf(warp), coverOf(weft)),
    gap: 1 - spec.gapDarkness,
    gapDarkness: spec.gapDarkness,
    warpColour: spec.warpColour,
    weftColour: spec.weftColour,
    dye: spec.dye,
    ink: inkOn(warp, weft, draft, spec.inked),
  };
}

function makeSet(
  spec: LinenSpec,
  draft: Draft,
  isWarp: boolean,
  tex: number,
  thickness: number,
  rise: number,
  threads: ThreadSet,
  lattice: Lattice,
  random: (name: string) => RandomStream,
): YarnSet {
  const name = isWarp ? 'warp' : 'weft';
  const half = widthOf(tex, threads.pitch, spec) / 2;
  const tables = spinYarns(
    threads,
    {
      half,
      unevenness: spec.unevenness,
      slubs: spec.slubsPerMetre,
      tone: spec.tone,
      straying: OWN_STRAYING * spec.straying * threads.pitch,
    },
    random(name).bits(),
  );
  placeThreads(
    threads,
    tables,
    togetherness(draft, isWarp),
    lattice,
    CLOTH_STRAYING * spec.straying * threads.pitch,
    random(`${name} cloth`),
  );
  const fibres = random(`${name} fibres`);
  const lift = (warpShare(draft) - 0.5) * (isWarp ? 1 : -1);
  return {
    threads,
    ...tables,
    fibres: drawFibres(
      threads,
      yarnDiameter(tex),
      spec.streaks,
      FRAY,
      isWarp ? -TWIST_PER_METRE : TWIST_PER_METRE,
      fibres,
    ),
    lit: lightYarn(
      { isWarp, half, thick: thickness / 2, rise, lift, cellLength: threads.cellLength },
      spec.lighting,
    ),
    evenHalf: half,
    reach: Math.ceil(largest(tables.offset) / threads.pitch),
  };
}

/** Width over thickness: worn or pressed yarns lie flatter. */
function flattening({ lighting }: LinenSpec): number {
  return FLATTENING + FLATTENING_OF_WEAR * lighting.wear;
}

/** mm; the oval keeps the area of the round yarn until its neighbours leave it no room. */
function widthOf(tex: number, pitch: number, spec: LinenSpec): number {
  return Math.min(yarnDiameter(tex) * Math.sqrt(flattening(spec)), FULLEST * pitch);
}

/** mm */
function thicknessOf(tex: number, pitch: number, spec: LinenSpec): number {
  const round = yarnDiameter(tex);
  return Math.min(round / Math.sqrt(flattening(spec)), FULLEST * pitch);
}

function largest(values: Float32Array): number {
  let most = 0;
  for (let k = 0; k < values.length; k++) {
    const size = Math.abs(values[k]);
    if (size > most) most = size;
  }
  return most;
}
