import { linearOfShortTable, type Picture, shortOfLinear } from 'tenter';

/** A picture with no more than `most` pixels: half, a quarter, ... of its density, the means of light. */
export function reduced(picture: Picture, most: number): Picture {
  let step = 1;
  while ((picture.width * picture.height) / step ** 2 > most) step *= 2;
  step = Math.min(step, picture.width, picture.height);
  if (step === 1) return picture;
  const table = linearOfShortTable();
  const width = Math.floor(picture.width / step);
  const height = Math.floor(picture.height / step);
  const samples = new Uint16Array(4 * width * height);
  for (let j = 0, to = 0; j < height; j++) {
    for (let i = 0; i < width; i++, to += 4) {
      let [red, green, blue, alpha] = [0, 0, 0, 0];
      for (let n = 0; n < step; n++) {
        const from = 4 * ((j * step + n) * picture.width + i * step);
        for (let at = from; at < from + 4 * step; at += 4) {
          const cover = picture.samples[at + 3];
          red += cover * table[picture.samples[at]];
          green += cover * table[picture.samples[at + 1]];
          blue += cover * table[picture.samples[at + 2]];
          alpha += cover;
        }
      }
      if (alpha === 0) continue;
      samples[to] = shortOfLinear(red / alpha);
      samples[to + 1] = shortOfLinear(green / alpha);
      samples[to + 2] = shortOfLinear(blue / alpha);
      samples[to + 3] = Math.round(alpha / step ** 2);
    }
  }
  const { mmPerPixelX, mmPerPixelY } = picture;
  return { width, height, mmPerPixelX: mmPerPixelX * step, mmPerPixelY: mmPerPixelY * step, samples };
}
