import type { Band, TextureLayer } from 'tenter';
import { paintFar } from './far.ts';
import type { CheckModel } from './model.ts';
import { paintNear } from './near.ts';

/** Threads to a pixel from which on none is drawn. */
const FAR = 1.5;
/** Samples to a thread that draw it truly, and that do where a pixel blurs it anyway. */
const SAMPLES_PER_THREAD = 6;
const SAMPLES_PER_BLURRED_THREAD = 4.5;
const BLURRED = 0.35;

/** Fills the planes of a band; each pixel is the mean of its samples, or of its crossings from afar. */
export function paintCheck(model: CheckModel, band: Band, layer: TextureLayer<'shade' | 'tint'>): void {
  const threads = Math.max(band.mmPerPixelX / model.warp.pitch, band.mmPerPixelY / model.weft.pitch);
  if (threads > FAR) paintFar(model, band, layer);
  else paintNear(model, band, layer, Math.max(1, Math.ceil(samplesPerThread(threads) * threads)));
}

function samplesPerThread(threads: number): number {
  return threads > BLURRED ? SAMPLES_PER_BLURRED_THREAD : SAMPLES_PER_THREAD;
}
