import { type Frame, sharedSamples } from '../../colour/frame.ts';
import { Pyramid } from './pyramid.ts';

/** Artwork opened for looking: its tile and coarser copies of it, in shared memory. */
export interface SightArtwork {
  /** Of the tile, px. */
  readonly width: number;
  readonly height: number;
  /** The tile in 8 bit a sample, and the coarser ones as looks come to need them: a third more memory at most. */
  readonly pyramid: Pyramid;
}

/**
 * Opens a tile for looking. A tile of 16 bit is looked at in 8, as screens show it, and may be let go then.
 *
 * @param frame Not to be written to while it is open.
 */
export function openSightArtwork({ pixels, width, height }: Frame): SightArtwork {
  const isReady = pixels instanceof Uint8Array && pixels.buffer instanceof SharedArrayBuffer;
  const bytes = isReady ? pixels : narrowed(pixels);
  return { width, height, pyramid: new Pyramid({ pixels: bytes, width, height, channels: 4 }) };
}

function narrowed(pixels: Uint8Array | Uint16Array): Uint8Array {
  const bytes = sharedSamples(pixels.length, 8) as Uint8Array;
  if (pixels instanceof Uint8Array) bytes.set(pixels);
  else for (let k = 0; k < pixels.length; k++) bytes[k] = (pixels[k] * 255 + 32_767) / 65_535;
  return bytes;
}
