import watered from '../watered-silk/index.ts';
import type { WateredModel } from '../watered-silk/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makeWatered = makerOf<WateredModel>(watered);
export const paintWatered = painterOf<'shade'>(watered);
