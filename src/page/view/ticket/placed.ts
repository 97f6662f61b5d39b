import type { MaskRecipe } from '../../../host/plugins/recipe.ts';
import { RESIST, type Work, type WorkStep } from '../../words/work.ts';
import { freshId, stepChanged } from '../state/edit.ts';

/** The ways in which a step can lie. */
export type Way = 'all' | 'colours' | 'sparing' | 'resist' | 'painted' | 'picture';

/** How a mask says that a step lies. */
export function wayOf(mask: MaskRecipe | undefined): Way {
  if (!mask) return 'all';
  if (mask.colours) return mask.spare ? 'sparing' : 'colours';
  if (!mask.picture?.startsWith(RESIST)) return 'picture';
  return mask.spare ? 'resist' : 'painted';
}

/**
 * The same work with a step that lies another way; what was painted or touched for it is kept. Where a colour has
 * still to be touched, or a picture to be opened, it lies over all until then.
 */
export function placed(work: Work, step: WorkStep, way: Way): Work {
  const { mask } = step;
  if (way === 'resist' || way === 'painted') return paintedAround(work, step, way === 'resist');
  if ((way === 'colours' || way === 'sparing') && mask?.colours)
    return stepChanged(work, step.id, { mask: { ...mask, spare: way === 'sparing' } });
  return stepChanged(work, step.id, { mask: undefined });
}

function paintedAround(work: Work, step: WorkStep, spare: boolean): Work {
  const now = step.mask?.picture;
  const name = now?.startsWith(RESIST) ? now.slice(RESIST.length) : freshId(work);
  const resists = { ...work.resists, [name]: work.resists[name] ?? { strokes: [] } };
  return stepChanged({ ...work, resists }, step.id, { mask: { picture: `${RESIST}${name}`, spare } });
}

/** A colour taken into a mask, or out of it; a mask of none is no mask. */
export function toggled(mask: MaskRecipe | undefined, hex: string, spare: boolean): MaskRecipe | undefined {
  if (!mask?.colours) return { colours: [hex], spare };
  const others = mask.colours.filter((one) => one !== hex);
  if (others.length === mask.colours.length) return { ...mask, colours: [...others, hex] };
  return others.length > 0 ? { ...mask, colours: others } : undefined;
}
