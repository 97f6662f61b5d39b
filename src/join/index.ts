export { type Cut, type CutCosts, minimumCut, NEVER } from './minimum-cut.ts';
