import { DEFAULT_LIGHT, type Light } from '../composite/light.ts';
import { planesRead, readsArtwork } from '../effect/artwork.ts';
import type { PlaneName } from '../effect/layer.ts';
import { followsArtwork, type RenderJob, spaceOf } from './job.ts';
import type { EffectOrder, PrepareOrder } from './orders.ts';
import { sizeOf } from './space.ts';
import type { RenderStep } from './step.ts';
import type { LayerPlace } from './textures.ts';

type Job = Pick<RenderJob, 'grid' | 'steps' | 'follow' | 'quality' | 'light' | 'artworkField'>;

/** What preparing a step of a render depends on. */
export function prepareOrder(job: Job, step: Ordered): PrepareOrder {
  const { grid, quality = 'finished', light, artworkField } = job;
  const artwork = readsArtwork(step.declares) ? artworkField : undefined;
  return {
    kind: 'prepare',
    effect: inLight(step, light),
    box: grid.box,
    quality,
    ...(artwork && { artwork }),
  };
}

type Ordered = Pick<RenderStep, 'order' | 'declares'>;

/** An effect that lights itself does so from where the light of the render is said to come. */
export function inLight({ order, declares: { lightFrom } }: Ordered, light: Light | undefined): EffectOrder {
  if (light === undefined || lightFrom === undefined) return order;
  return { ...order, parameters: { ...order.parameters, [lightFrom]: light.direction } };
}

/**
 * Where the layer of a step may be kept; none where it depends on what lies below it, which other renders
 * do not share, or on artwork that has not been read yet.
 *
 * @param planes Those that it paints, once that is known; by default all that it may.
 */
export function layerPlace(
  job: Job,
  index: number,
  planes: readonly PlaneName[] = job.steps[index].declares.planes,
): LayerPlace | undefined {
  const { grid, steps, light = DEFAULT_LIGHT } = job;
  const { declares } = steps[index];
  if (readsSomething(steps, index)) return undefined;
  // Until the artwork has been read nobody knows which layer it is.
  if (readsArtwork(declares) && !job.artworkField) return undefined;
  const isRaised = declares.planes.includes('relief');
  const isRead = steps.slice(index + 1).some((step) => step.declares.reads?.includes('relief'));
  return {
    order: prepareOrder(job, steps[index]),
    planes: planesKept(planes, isRead),
    ...sizeOf(grid, spaceOf(job)),
    grid,
    follows: followsArtwork(job),
    light: isRaised ? light : undefined,
    keepsRelief: isRaised && isRead,
  };
}

/** True where a step reads what any step before it may paint. */
function readsSomething(steps: readonly RenderStep[], index: number): boolean {
  const reads: readonly PlaneName[] = planesRead(steps[index].declares);
  const before = steps.slice(0, index).flatMap(({ declares }) => paintedPlanes(declares.planes));
  return reads.some((plane) => before.includes(plane));
}

/** A relief is lit into shade. */
export function paintedPlanes(planes: readonly PlaneName[]): PlaneName[] {
  return [...new Set<PlaneName>(planes.includes('relief') ? [...planes, 'shade'] : planes)];
}

/** The light on a relief is kept, and the heights only for those who read them. */
function planesKept(planes: readonly PlaneName[], isRead: boolean): PlaneName[] {
  return paintedPlanes(planes).filter((plane) => isRead || plane !== 'relief');
}
