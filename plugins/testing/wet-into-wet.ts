import wet from '../wet-into-wet/index.ts';
import type { WetModel } from '../wet-into-wet/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makeWet = makerOf<WetModel>(wet);
export const paintWet = painterOf<'load' | 'parting' | 'shift' | 'tint' | 'bleed'>(wet);
