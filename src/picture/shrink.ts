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
  const bytes =
    pixels instanceof Uint8Array ? pixels : Uint8Array.from(pixels, (sample) => sample / 257 + 0.5);
  const { data } = await sharp(bytes, { raw: { width, height, channels: 4 }, limitInputPixels: false })
    .resize(size[0], size[1], { fit: 'fill', kernel: 'linear' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { pixels: new Uint8Array(data), width: size[0], height: size[1] };
}
