export * from './cells.ts';
export * from './hash.ts';
export * from './noise.ts';
export * from './random.ts';
