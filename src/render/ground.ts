import type { EffectDescription } from './description.ts';
import { WHITE_PAPER } from './step.ts';

/** Of middling depth, so that both thinner and thicker paint show. */
export const WASH = '#4f7fa3';

/** What a texture alone is seen on: paint that is only thinned and gathered cannot be seen on bare paper. */
export function groundFor({ planes }: Pick<EffectDescription, 'planes'>, paper = WHITE_PAPER): string {
  return planes.includes('load') ? WASH : paper;
}
