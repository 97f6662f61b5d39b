import type { Way } from '../way.ts';
import type { EvenModel } from './model.ts';
import { paintEven } from './paint.ts';
import { prepareEven } from './prepare.ts';

/** For fine, even textures: pieces added on a bell curve, the histogram kept. */
export const EVEN: Way<EvenModel> = {
  prepare: prepareEven,
  paint: paintEven,
  comesBack: (model) => model.comesBack,
};

export type { EvenModel } from './model.ts';
