export * from './picture.ts';
export { type Mask, type ReadOptions, readMask, readPicture } from './read.ts';
export * from './write.ts';
