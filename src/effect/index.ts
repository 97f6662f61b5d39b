/** What writers of effects need of the contract. */
export { ARTWORK_CHANNELS, type Artwork } from './artwork.ts';
export * from './effect.ts';
export * from './home.ts';
export * from './layer.ts';
export * from './load-light.ts';
export * from './mean-load.ts';
export * from './parameter.ts';
export * from './picture.ts';
