/** The public entry, "tenter": everything that an effect may use. Runs in Node and in a browser worker alike. */
export * from './colour/index.ts';
export * from './effect/index.ts';
export * from './fault.ts';
export * from './field/index.ts';
export {
  type Cut,
  type CutCosts,
  divideLight,
  type LitPicture,
  minimumCut,
  NEVER,
  type SlowLight,
  type SlowLightOptions,
  slowLight,
  type Term,
} from './join/index.ts';
export * from './repeat/index.ts';
export {
  type GrainRows,
  HEAVY_HUES,
  type HeavyHue,
  layWash,
  layWashPaper,
  openGrain,
  openWashRows,
  partedHues,
  type Wash,
  type WashPaper,
  type WashRows,
  type WashValues,
} from './wash/index.ts';
