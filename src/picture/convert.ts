import { byteOfLinear, shortOfLinear } from '../colour/index.ts';
import type { Bits, Samples } from './picture.ts';
import type { Profile } from './profile.ts';
import type { Curve } from './profile-curve.ts';

/** Changes the colours of straight RGBA samples where they stand. */
export type Converter = (pixels: Samples) => void;

/**
 * What turns the colours of a profile into sRGB; undefined where they are sRGB already or the
 * engine converts them. Relative colorimetric: white stays white, colours outside sRGB are clipped.
 * The engine's own conversion was off by up to 1.7 of 255 and 450 of 65,535 on Display P3; this is
 * the profile's own arithmetic.
 */
export function converterOf(profile: Profile | undefined, bits: Bits): Converter | undefined {
  if (profile?.kind === 'grey') return greyConverter(profile.curve, bits);
  if (profile?.kind === 'matrix') return matrixConverter(profile.curves, profile.toSrgb, bits);
  return undefined;
}

function greyConverter(curve: Curve, bits: Bits): Converter {
  const table = tableOf((sample) => encoderOf(bits)(curve(sample)), bits);
  return (pixels) => {
    for (let at = 0; at < pixels.length; at += 4) {
      pixels[at] = pixels[at + 1] = pixels[at + 2] = table[pixels[at]];
    }
  };
}

function matrixConverter(curves: readonly Curve[], toSrgb: readonly number[], bits: Bits): Converter {
  const [reds, greens, blues] = curves.map((curve) => tableOf(curve, bits));
  const [rr, rg, rb, gr, gg, gb, br, bg, bb] = toSrgb;
  const encode = encoderOf(bits);
  return (pixels) => {
    for (let at = 0; at < pixels.length; at += 4) {
      const red = reds[pixels[at]];
      const green = greens[pixels[at + 1]];
      const blue = blues[pixels[at + 2]];
      pixels[at] = encode(rr * red + rg * green + rb * blue);
      pixels[at + 1] = encode(gr * red + gg * green + gb * blue);
      pixels[at + 2] = encode(br * red + bg * green + bb * blue);
    }
  };
}

function encoderOf(bits: Bits): (linear: number) => number {
  return bits === 8 ? byteOfLinear : shortOfLinear;
}

/** A function of a sample 0..1, for every sample there is. */
function tableOf(of: (sample: number) => number, bits: Bits): Float64Array {
  const top = 2 ** bits - 1;
  return Float64Array.from({ length: top + 1 }, (_, index) => of(index / top));
}
