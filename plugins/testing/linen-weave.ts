import linen from '../linen-weave/index.ts';
import type { LinenModel } from '../linen-weave/model.ts';
import type { LinenPlane } from '../linen-weave/parameters.ts';
import { makerOf, painterOf } from './make.ts';

export const makeLinen = makerOf<LinenModel>(linen);
export const paintLinen = painterOf<LinenPlane>(linen);
