export * from './grid.ts';
export * from './lattice.ts';
export * from './layout.ts';
export * from './length.ts';
export * from './repeat.ts';
export * from './unfold.ts';
