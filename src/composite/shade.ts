import { type Strength, strengthList } from './strength.ts';

/**
 * Lays a shade plane in place: R' = R * shade' in linear light, shade' = 1 + (shade - 1) * strength.
 * Alpha stays. Light above white is kept until the band is written.
 *
 * @param working Linear RGBA, `4 * shade.length` numbers.
 * @param shade   How much light returns, 1 = unchanged.
 */
export function layShade(working: Float32Array, shade: Float32Array, strength: Strength): void {
  const { list, step } = strengthList(strength);
  for (let pixel = 0, at = 0; pixel < shade.length; pixel++, at += 4) {
    const light = 1 + (shade[pixel] - 1) * list[pixel * step];
    working[at] *= light;
    working[at + 1] *= light;
    working[at + 2] *= light;
  }
}
