import type { Frame } from '../colour/frame.ts';
import { DEFAULT_LIGHT } from '../composite/light.ts';
import { planesRead } from '../effect/artwork.ts';
import type { Patch } from '../repeat/patch.ts';
import { followsArtwork, type RenderJob } from './job.ts';
import { layerPlace } from './layer-place.ts';
import { keptOf, lendLayers } from './lend-layers.ts';
import { laidShare } from './mask.ts';
import type { PassOrder, Prepared } from './orders.ts';
import { groupSteps, type PreparedStep, planPatchPasses } from './passes.ts';
import { planPatches } from './patches.ts';
import { prepareSteps } from './prepare-steps.ts';
import type { Rendered } from './render.ts';
import type { RenderCrew } from './render-crew.ts';
import type { LayerPlace, TextureKeeper } from './textures.ts';

/** A render of a patch of the plane alone. Steps that read the artwork need its `artworkField`. */
export interface PatchJob extends Omit<RenderJob, 'tile'> {
  readonly patch: Patch;
}

export interface PatchTools {
  readonly crew: RenderCrew;
  readonly textures?: TextureKeeper;
  /** The artwork over a patch; it is not written to. */
  gather(patch: Patch): Promise<Frame>;
  /** The samples of a step's mask picture over a patch, where it has one. */
  gatherMask(step: number, patch: Patch): Promise<Uint8Array | undefined>;
}

/**
 * Lays the steps over a patch of the plane: the pixels that a whole render on the same grid has there, but for
 * what is moved or runs to the patch from far beyond its edges, and for where softness is rounded on its way.
 * The bytes are the same for any number of workers.
 *
 * @returns The frame is of the patch; `laidOn` is of it, or of as much around it as the step had to be laid on.
 */
export async function renderPatch(job: PatchJob, tools: PatchTools): Promise<Omit<Rendered, 'ranges'>> {
  const started = performance.now();
  const { grid, steps, patch, light = DEFAULT_LIGHT } = job;
  const declared = steps.map(({ declares }) => ({
    prepared: { planes: declares.planes, reads: planesRead(declares) },
  }));
  const { artwork: around } = planPatches(planesOfPasses(declared), patch, grid, light);
  const gathering = Promise.all([
    tools.gather(around),
    Promise.all(steps.map((_, index) => tools.gatherMask(index, around))),
  ]);
  // Until it is awaited nobody hears of a failure; and it would end everything.
  gathering.catch(() => {});
  const prepared = await prepareSteps(tools.crew, job, tools.textures, () => {});
  const [artwork, masks] = await gathering;
  const painting = performance.now();
  const groups = groupSteps(prepared.map((one, index) => ({ prepared: one, index })));
  const { targets } = planPatches(planesOfPasses(groups.flat()), patch, grid, light);
  const places = groups.flatMap((group, pass) =>
    group.map(({ index }) => patchPlace(job, index, prepared, targets[pass])),
  );
  const lent = await lendLayers(places, tools.textures);
  let isPainted = false;
  let passes: PassOrder[];
  try {
    const items = groups.map((group) =>
      group.map(
        ({ index }): PreparedStep => ({
          step: steps[index],
          prepared: prepared[index],
          maskSamples: masks[index],
          kept: keptOf(lent[index]),
        }),
      ),
    );
    const ground = { grid, follows: followsArtwork(job), light };
    passes = planPatchPasses(items, artwork, { targets, artwork: around }, ground);
    for (const pass of passes) await tools.crew.runPass(pass, () => {});
    isPainted = true;
  } finally {
    for (const layer of lent) layer?.end(isPainted);
  }
  return {
    frame: { pixels: passes.at(-1)?.target ?? artwork.pixels, width: patch.width, height: patch.height },
    grid,
    reports: prepared.map(({ reports }) => reports),
    laidOn: passes.flatMap(({ steps: laid, width, height }) =>
      laid.filter(({ isOnlyRead }) => !isOnlyRead).map(({ mask }) => mask && laidShare(mask, width * height)),
    ),
    timings: { prepare: painting - started, paint: performance.now() - painting },
  };
}

function planesOfPasses(steps: readonly { readonly prepared: Pick<Prepared, 'planes' | 'reads'> }[]) {
  return groupSteps(steps).map((group) => group.map(({ prepared }) => prepared));
}

/** A layer that others read is needed beyond the patch as well, and is not kept. */
function patchPlace(
  job: PatchJob,
  index: number,
  prepared: readonly Prepared[],
  patch: Patch,
): LayerPlace | undefined {
  if (prepared.slice(index + 1).some(({ reads }) => reads.length > 0)) return undefined;
  const place = layerPlace(job, index, prepared[index].planes);
  return place && { ...place, patch, width: patch.width, height: patch.height };
}
