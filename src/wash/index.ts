export { type GrainRows, openGrain } from './grain.ts';
export { HEAVY_HUES, type HeavyHue, partedHues } from './hues.ts';
export { layWash, type Wash } from './lay-wash.ts';
export { layPaper as layWashPaper, type WashPaper } from './paper.ts';
export { openWashRows, type WashRows } from './wash-rows.ts';
export type { WashValues } from './wash-values.ts';
