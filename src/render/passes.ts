import { type Frame, sharedSamples } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import type { Light } from '../composite/light.ts';
import type { PlaneName } from '../effect/layer.ts';
import { type Grid, patchGrid } from '../repeat/grid.ts';
import { unfold } from '../repeat/unfold.ts';
import type { Allot } from './frame.ts';
import type { KeptLayer } from './kept-planes.ts';
import { paintedPlanes } from './layer-place.ts';
import { openLaidCount } from './mask.ts';
import type { MaskOrder, PassOrder, Prepared, SoftPicture, StepOrder } from './orders.ts';
import type { PlannedPatches } from './patches.ts';
import { planStack } from './soften.ts';
import { bandRowsFor, type Space } from './space.ts';
import type { RenderStep } from './step.ts';

/** A step and what its effect prepared. */
export interface PreparedStep {
  readonly step: RenderStep;
  readonly prepared: Prepared;
  /** The samples of its mask picture, one per pixel of the tile, where it has one. */
  readonly maskSamples?: Uint8Array;
  readonly kept?: KeptLayer;
}

/** A step that moves paint, or lets it run, needs the whole result of those before it, so it opens a new pass. */
export function groupSteps<Item extends { readonly prepared: Pick<Prepared, 'planes'> }>(
  steps: readonly Item[],
): Item[][] {
  const groups: Item[][] = [];
  for (const item of steps) {
    if (groups.length === 0 || moves(item)) groups.push([item]);
    else groups.at(-1)!.push(item);
  }
  return groups;
}

/** What all passes of a render have in common. */
export interface Ground {
  readonly grid: Grid;
  readonly space: Space;
  readonly follows: boolean;
  readonly light: Light;
}

/**
 * The passes for groups of steps over a frame. They work in the frame's own memory where they can:
 * a pass that moves paint reads what it must not yet overwrite, and a later mask by colour, or one that is looked at beyond its band,
 * still needs the artwork as it was. What a step reads of earlier passes is painted again in its own, so that no band
 * depends on another and nothing has to be kept of a whole frame.
 */
export function planPasses(
  groups: readonly PreparedStep[][],
  frame: Frame,
  { grid, space, follows, light }: Ground,
  allot: Allot = shareBlank,
): PassOrder[] {
  const { width, height } = frame;
  const original = frame.pixels;
  const read = groups.map((group, index) => readAgain(groups.slice(0, index).flat(), group));
  const keepsOriginal = groups.some((group, index) => {
    const goesByColour = [...read[index], ...group].some(({ step }) => step.mask?.colours);
    return goesByColour && (index > 0 || group.some(readsAround));
  });
  let source = original;
  let spare: typeof original | undefined;
  // Filled anew before each pass that reads it, so one serves them all.
  let stack: readonly SoftPicture[] | undefined;
  return groups.map((group, index) => {
    const needsRoom = paints(group[0], 'shift') || (keepsOriginal && source === original);
    const target = needsRoom ? (spare ?? allot(source, source.length)) : source;
    if (needsRoom) spare = keepsOriginal && source === original ? undefined : source;
    const pass: PassOrder = {
      grid,
      frame: space,
      follows,
      light,
      width,
      height,
      bandRows: bandRowsFor(width, height),
      source,
      target,
      original,
      nextBand: new Int32Array(new SharedArrayBuffer(4)),
      steps: [
        ...read[index].map((item) => onlyRead(stepOrder(item, grid, space))),
        ...group.map((item) => stepOrder(item, grid, space)),
      ],
      stack: paints(group[0], 'bleed') ? (stack ??= planStack(grid, space, allot)) : undefined,
    };
    source = target;
    return pass;
  });
}

/** Pixels of a band of a patch: a look that is given up stops at the end of one. */
const PATCH_BAND_PIXELS = 1 << 16;

/**
 * The passes for groups of steps over a patch of the plane. Each paints into fresh memory: the artwork is
 * kept for other looks.
 *
 * @param artwork Over `patches.artwork`.
 */
export function planPatchPasses(
  groups: readonly PreparedStep[][],
  artwork: Frame,
  patches: PlannedPatches,
  { grid, follows, light }: Omit<Ground, 'space'>,
): PassOrder[] {
  const original = patches.artwork;
  let source = { pixels: artwork.pixels, patch: original };
  return groups.map((group, index) => {
    const patch = patches.targets[index];
    const { width, height } = patch;
    const target = shareBlank(artwork.pixels, 4 * width * height);
    const earlier = readAgain(groups.slice(0, index).flat(), group);
    const pass: PassOrder = {
      grid,
      frame: 'patch',
      patches: { target: patch, source: source.patch, original },
      follows,
      light,
      width,
      height,
      bandRows: bandRowsFor(width, height, PATCH_BAND_PIXELS),
      source: source.pixels,
      target,
      original: artwork.pixels,
      nextBand: new Int32Array(new SharedArrayBuffer(4)),
      steps: [
        ...earlier.map((item) => onlyRead(stepOrder(item, grid, 'patch'))),
        ...group.map((item) => stepOrder(item, grid, 'patch')),
      ],
      stack: paints(group[0], 'bleed') ? planStack(patchGrid(grid, source.patch), 'patch') : undefined,
    };
    source = { pixels: target, patch };
    return pass;
  });
}

/** Those of the earlier steps that the steps of a group read, or that such a step reads in its turn. */
function readAgain(earlier: readonly PreparedStep[], group: readonly PreparedStep[]): PreparedStep[] {
  const wanted = new Set<PlaneName>(group.flatMap(({ prepared }) => prepared.reads));
  const found: PreparedStep[] = [];
  for (const item of earlier.toReversed()) {
    if (!paintedPlanes(item.prepared.planes).some((plane) => wanted.has(plane))) continue;
    found.unshift(item);
    for (const plane of item.prepared.reads) wanted.add(plane);
  }
  return found;
}

/** An earlier pass has filled what it keeps. */
function onlyRead(order: StepOrder): StepOrder {
  return { ...order, isOnlyRead: true, kept: order.kept && { ...order.kept, isPainted: true } };
}

/** A relief is lit by what lies around it, and so a step that reads for one looks beyond its band. */
function readsAround(item: PreparedStep): boolean {
  return item.prepared.reads.length > 0 && paints(item, 'relief');
}

function moves(item: { readonly prepared: Pick<Prepared, 'planes'> }): boolean {
  return paints(item, 'shift') || paints(item, 'bleed');
}

function paints({ prepared }: { readonly prepared: Pick<Prepared, 'planes'> }, plane: PlaneName): boolean {
  return prepared.planes.includes(plane);
}

function stepOrder({ step, prepared, maskSamples, kept }: PreparedStep, grid: Grid, space: Space): StepOrder {
  // What of its pictures it needs stands in its model.
  const { pictures: _, ...order } = step.order;
  const { blend, opacity, paper } = step;
  const mask = maskOrder(step, maskSamples, grid, space);
  const { model, planes, reads } = prepared;
  return { ...order, model, planes, reads, blend, opacity, paper, mask, kept };
}

/** CIEDE2000 of about 2 is just seen side by side; 5 takes in the fringe of a flat colour saved as JPEG. */
export const DEFAULT_TOLERANCE = 5;
/** Over how much more it fades out. */
export const DEFAULT_SOFTNESS = 3;

function maskOrder(
  { mask }: RenderStep,
  samples: Uint8Array | undefined,
  grid: Grid,
  space: Space,
): MaskOrder | undefined {
  const spare = mask?.spare ?? false;
  const laid = openLaidCount();
  if (samples)
    return { kind: 'picture', samples: space === 'box' ? unfoldMask(samples, grid) : samples, spare, laid };
  if (!mask?.colours) return undefined;
  const { colours, tolerance = DEFAULT_TOLERANCE, softness = DEFAULT_SOFTNESS } = mask;
  return { kind: 'colours', colours, tolerance, softness, spare, laid };
}

function unfoldMask(samples: Uint8Array, grid: Grid): Uint8Array {
  const { tileWidth, tileHeight, width, height } = grid;
  if (samples.length === width * height) return samples;
  const unfolded = sharedSamples(width * height, 8) as Uint8Array;
  return unfold(grid.repeat.layout, samples, tileWidth, tileHeight, 1, unfolded);
}
