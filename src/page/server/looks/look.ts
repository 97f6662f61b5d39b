import { lightOf } from '../../../render/light-words.ts';
import { gridOfPixels } from '../../../repeat/grid.ts';
import { parseLayout, STRAIGHT } from '../../../repeat/layout.ts';
import type { LookOrder } from '../../words/look.ts';
import type { Desk } from '../desk.ts';
import { withOpenedPaths } from '../opened/opened-pictures.ts';
import { blameStep, renderedSteps } from './laid-steps.ts';
import { maskSources } from './masks.ts';
import { packLook } from './pack-look.ts';

/** Carries out an order of the page. @throws Fault of any kind; `cancelled` at once where `signal` asks. */
export async function look(
  { artworks, shelf, sight, masks }: Pick<Desk, 'artworks' | 'shelf' | 'sight' | 'masks'>,
  order: LookOrder,
  signal: AbortSignal,
): Promise<Uint8Array<ArrayBuffer>> {
  const { tile, ground, size, laying, resists, density, part, quality } = order;
  const layout = parseLayout(order.layout);
  const laid = renderedSteps(shelf, withOpenedPaths({ shelf, artworks }, laying));
  const steps = laid.map(({ step }) => step);
  const artwork = tile === undefined ? undefined : await artworks.picture(tile);
  // A size of another shape than the picture would stretch it.
  if (artwork) gridOfPixels({ ...size, layout: STRAIGHT }, artwork.width, artwork.height);
  try {
    const seen = await sight.look(
      {
        ...{ artwork, ground, layout, size, steps, quality, density, part },
        masks: await maskSources(steps, { resists, artworks, masks }, { layout, ...size }, artwork),
        follow: laying.follow ?? 'cloth',
        light: lightOf(laying.light),
      },
      signal,
    );
    return packLook(seen, laid);
  } catch (error) {
    throw blameStep(error, laid);
  }
}
