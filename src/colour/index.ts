export { BLEND_MODES, type BlendMode, blendColours } from './blend.ts';
export { colourDifference } from './difference.ts';
export type { Frame } from './frame.ts';
export { bytesOfHex, formatHex, hexOfBytes, parseHex, type Rgb, type RgbBytes } from './hex.ts';
export { type Lab, labOfBytes, labOfLinear, labOfSrgb } from './lab.ts';
export { type ColourLookup, nearestColour } from './nearest-colour.ts';
export {
  byteOfLinear,
  clampToUnit,
  decodeByTable,
  decodeSrgb,
  encodeByTable,
  encodeSrgb,
  LINEAR_OF_BYTE,
  linearOfShortTable,
  shortOfLinear,
} from './srgb.ts';
