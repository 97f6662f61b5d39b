/** "tenter/render": for programs that render, in Node and in a browser alike. */
export * from '../composite/index.ts';
export * from '../effect/for-hosts.ts';
export * from './description.ts';
export type { Follow } from './follow.ts';
export * from './frame.ts';
export * from './job.ts';
export * from './kept-planes.ts';
export * from './layer-place.ts';
export * from './light-words.ts';
export * from './orders.ts';
export * from './pass.ts';
export * from './ranges.ts';
export * from './render.ts';
export * from './space.ts';
export * from './step.ts';
export * from './textures.ts';
export * from './tile-grid.ts';
export * from './verdict.ts';
