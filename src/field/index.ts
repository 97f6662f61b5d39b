export * from './cells.ts';
export * from './fractal.ts';
export * from './hash.ts';
export * from './noise.ts';
export * from './noise-row.ts';
export * from './periodic.ts';
export * from './poisson.ts';
export * from './random.ts';
