import { type Samples, sharedSamples } from './frame.ts';
import { byteOfLinear, LINEAR_OF_BYTE, linearOfShortTable, shortOfLinear } from './srgb.ts';

/** Any samples of 8 or 16 bit. */
type Kind = Pick<Samples, 'BYTES_PER_ELEMENT'>;

const isDeep = (kind: Kind): boolean => kind.BYTES_PER_ELEMENT === 2;

/** The sample that says 1: 255, or 65,535 of 16 bit. */
export function fullSample(kind: Kind): number {
  return isDeep(kind) ? 65_535 : 255;
}

/** Of each sample of the kind its linear value, 0..1. */
export function linearTable(kind: Kind): Float32Array {
  return isDeep(kind) ? linearOfShortTable() : LINEAR_OF_BYTE;
}

/** Says a linear value, 0..1, as a sample of the kind. */
export function sampleOfLinear(kind: Kind): (linear: number) => number {
  return isDeep(kind) ? shortOfLinear : byteOfLinear;
}

/** Zeroed samples of the kind that workers can share; as many as are given where no other number is. */
export function shareBlank(samples: Samples, length = samples.length): Samples {
  return sharedSamples(length, isDeep(samples) ? 16 : 8);
}

/** The samples at 8 bits: themselves where they have no more, each rounded to the nearest otherwise. */
export function atEightBits(samples: Samples): Uint8Array {
  return samples instanceof Uint8Array ? samples : Uint8Array.from(samples, (sample) => sample / 257 + 0.5);
}

/** So many zeroed samples of the kind, for whoever asks alone. */
export function ownBlank(kind: Kind, length: number): Samples {
  return isDeep(kind) ? new Uint16Array(length) : new Uint8Array(length);
}
