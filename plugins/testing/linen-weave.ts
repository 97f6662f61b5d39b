import linen from '../linen-weave/index.ts';
import type { LinenModel } from '../linen-weave/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makeLinen = makerOf<LinenModel>(linen);
export const paintLinen = painterOf<'shade' | 'tint'>(linen);
