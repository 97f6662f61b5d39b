import silk from '../raw-silk/index.ts';
import type { SilkModel } from '../raw-silk/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makeSilk = makerOf<SilkModel>(silk);
export const paintSilk = painterOf<'shade' | 'tint'>(silk);
