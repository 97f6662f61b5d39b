import type { RenderJob } from './job.ts';
import { prepareOrder } from './layer-place.ts';
import type { Prepared, PrepareOrder } from './orders.ts';
import type { RenderCrew } from './render-crew.ts';
import type { TextureKeeper } from './textures.ts';

/** Prepares every step of a render, but what is kept or already under way for another. */
export async function prepareSteps(
  crew: RenderCrew,
  job: Omit<RenderJob, 'tile'>,
  textures: TextureKeeper | undefined,
  onProgress: (done: number) => void,
): Promise<Prepared[]> {
  const shares = job.steps.map(() => 0);
  const orders = job.steps.map((step) => prepareOrder(job, step));
  const make = (wanted: readonly PrepareOrder[]) =>
    crew.prepare(wanted, (step, done) => {
      shares[orders.indexOf(wanted[step])] = done;
      onProgress(shares.reduce((sum, share) => sum + share, 0) / shares.length);
    });
  // Asked and told in one go, so that two renders that begin together do not both make it.
  const found = orders.map((order) => textures?.findPrepared(order));
  const missing = orders.filter((_, index) => !found[index]);
  const making = make(missing);
  for (const [index, order] of missing.entries()) {
    textures?.keepPrepared(
      order,
      making.then((made) => made[index]),
    );
  }
  const [made, known] = await Promise.all([
    making,
    Promise.all(found.map((one) => one?.catch(() => undefined))),
  ]);
  // What another render failed at, or gave up, this one tries for itself.
  const lost = orders.filter((_, index) => found[index] && !known[index]);
  const again = lost.length > 0 ? await make(lost) : [];
  return orders.map(
    (order, index) => known[index] ?? made[missing.indexOf(order)] ?? again[lost.indexOf(order)],
  );
}
