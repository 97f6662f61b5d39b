export {
  type DeepPicture,
  deepBytes,
  measurePicture,
  type PictureFacts,
  readDeepPicture,
} from './deep.ts';
export { readSteadily, sha256OfFile, stampOf } from './file-hash.ts';
export { fillFolderBeside } from './folder-beside.ts';
export { type Mask, readMask } from './mask.ts';
export {
  type Bits,
  DEFAULT_MAX_PIXELS,
  type Density,
  type Picture,
  READ_FORMATS,
  type Samples,
  sharedSamples,
} from './picture.ts';
export { asciiOf, openPlateFile, type PlateFile, type PlatePacking, type PlateWriter } from './plate-tiff.ts';
export { type ReadOptions, readPicture } from './read.ts';
export { refuseInputs, refuseInputsAmong, refuseTwins } from './same-file.ts';
export { requireWritable } from './writable.ts';
export {
  JPEG_QUALITY,
  PNG_LEVEL,
  refuseOverwrite,
  type WritablePicture,
  type WriteOptions,
  type Written,
  writePicture,
  writePictures,
} from './write.ts';
