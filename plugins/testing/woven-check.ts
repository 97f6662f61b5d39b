import check from '../woven-check/index.ts';
import type { CheckModel } from '../woven-check/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makeCheck = makerOf<CheckModel>(check);
export const paintCheck = painterOf<'shade' | 'tint'>(check);
