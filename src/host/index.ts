/** The host for programs in Node: finds effects, renders tiles, reads presets and recipes. */
export * from '../picture/index.ts';
export * from './check-picture.ts';
export * from './crew.ts';
export * from './find-recipe.ts';
export * from './frame.ts';
export * from './lay-tile.ts';
export * from './preset.ts';
export * from './recipe.ts';
export * from './render.ts';
export * from './schemas.ts';
export * from './shelf.ts';
export * from './step.ts';
export * from './tile-grid.ts';
