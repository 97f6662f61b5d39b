import paper from '../paper-tooth/index.ts';
import type { PaperModel } from '../paper-tooth/model.ts';
import { makerOf, painterOf } from './make.ts';

export const makePaper = makerOf<PaperModel>(paper);
export const paintPaper = painterOf<'shade' | 'load'>(paper);
