// Bytes shaded in WebAssembly, compiled by AssemblyScript: `npm run kernels` writes `shade-kernel.ts`.

/** 65,536 to the whole light: the places of `BYTE_OF_LINEAR`. */
const PLACES: f32 = 65536;

/** The tables `LINEAR_OF_BYTE`, of f32, and `BYTE_OF_LINEAR`, of u8. */
export const linear = memory.data(4 * 256);
export const byte = memory.data(65536 + 16);
/** 4096 pixels at most, of four bytes, what shades each, of f32, and how strongly, of f32. */
export const pixels = memory.data(4 * 4096);
export const shade = memory.data(4 * 4096);
export const strength = memory.data(4 * 4096);

/**
 * Shades pixels where they lie: light times 1 + (shade - 1) * strength.
 *
 * Up to the light that is cut to 32 bits all is reckoned in 64, as `layShade` does. From there on 32 bits hold all that
 * counts: half a place added is rounded to another place below the first alone, and both are black.
 *
 * @param step Bytes from the strength of a pixel to that of the next: 0 where one number serves all.
 */
export function shadeAll(count: i32, step: i32): void {
  const end = pixels + ((<usize>count) << 2);
  let strong = strength;
  for (let at = pixels, by = shade; at < end; at += 4, by += 4, strong += step) {
    const four = load<u32>(at);
    const light = 1 + (<f64>load<f32>(by) - 1) * <f64>load<f32>(strong);
    const lights = f64x2.splat(light);
    const redGreen = f64x2.replace_lane(f64x2.splat(linearOf(four & 255)), 1, linearOf((four >> 8) & 255));
    const shaded = f32x4.demote_f64x2_zero(f64x2.mul(redGreen, lights));
    const blue = <f32>(linearOf((four >> 16) & 255) * light);
    const all = f32x4.replace_lane(shaded, 2, blue);
    const clamped = f32x4.pmin(f32x4.splat(1), f32x4.pmax(f32x4.splat(0), all));
    const places = i32x4.trunc_sat_f32x4_s(
      f32x4.add(f32x4.mul(clamped, f32x4.splat(PLACES)), f32x4.splat(0.5)),
    );
    const red = byteAt(i32x4.extract_lane(places, 0));
    const green = byteAt(i32x4.extract_lane(places, 1));
    store<u32>(at, red | (green << 8) | (byteAt(i32x4.extract_lane(places, 2)) << 16) | (four & 0xff000000));
  }
}

function linearOf(value: u32): f64 {
  return load<f32>(linear + (value << 2));
}

function byteAt(place: i32): u32 {
  return load<u8>(byte + <usize>place);
}
