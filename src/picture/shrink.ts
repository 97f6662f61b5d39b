import { atEightBits } from '../colour/samples.ts';
import { sharp } from './engine.ts';
import type { Samples } from './picture.ts';

/**
 * A picture no larger than `side` either way, of the same shape, as 8 bit RGBA; one that is no larger stays as large.
 */
export async function shrinkTo(
  { pixels, width, height }: { readonly pixels: Samples; readonly width: number; readonly height: number },
  side: number,
): Promise<{ pixels: Uint8Array; width: number; height: number }> {
  const scale = Math.min(1, side / Math.max(width, height));
  const size = [width, height].map((length) => Math.max(1, Math.round(length * scale)));
  const raw = { width, height, channels: 4 } as const;
  const { data } = await sharp(atEightBits(pixels), { raw, limitInputPixels: false })
    .resize(size[0], size[1], { fit: 'fill', kernel: 'linear' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { pixels: new Uint8Array(data), width: size[0], height: size[1] };
}
