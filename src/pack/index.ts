/** The parcel for the mill: everything that a stranger needs to print a design. */
export { type Design, type DesignWish, designOfItem, designOfTile } from './design.ts';
export type { ColourwayFacts, FileFacts, InkFacts, ParcelFacts } from './facts.ts';
export { makeParcel, type Parcel, type ParcelWish } from './make-parcel.ts';
export { type Packed, type PackProgress, packDesigns } from './pack-designs.ts';
export { layerWords } from './sheet/strike-off.ts';
export { layoutWords, pixelWords, profileWords } from './words.ts';
