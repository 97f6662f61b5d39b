/** RGBA straight, 0..255, not rounded. */
export interface Drawn {
  readonly samples: Float32Array;
  readonly width: number;
  readonly height: number;
}

/** The part of a picture from (left, top). */
export function crop(picture: Drawn, left: number, top: number, width: number, height: number): Drawn {
  const samples = new Float32Array(width * height * 4);
  for (let y = 0; y < height; y++) {
    const from = ((y + top) * picture.width + left) * 4;
    samples.set(picture.samples.subarray(from, from + width * 4), y * width * 4);
  }
  return { samples, width, height };
}

/** Every pixel through `change`: gives the new R, G, B added to the old. */
export function shade(picture: Drawn, change: (x: number, y: number) => number): Drawn {
  const samples = picture.samples.slice();
  for (let y = 0; y < picture.height; y++) {
    for (let x = 0; x < picture.width; x++) {
      const more = change(x, y);
      const at = (y * picture.width + x) * 4;
      for (let channel = 0; channel < 3; channel++) samples[at + channel] += more;
    }
  }
  return { ...picture, samples };
}

/** The last row once more in place of itself: the row before it, repeated. */
export function repeatLastRow(picture: Drawn): Drawn {
  const { width, height } = picture;
  const samples = picture.samples.slice();
  samples.copyWithin((height - 1) * width * 4, (height - 2) * width * 4, (height - 1) * width * 4);
  return { ...picture, samples };
}

/** One more column (or row), a copy of the first: a period and a pixel. */
export function firstOnceMore(picture: Drawn, side: 'across' | 'down'): Drawn {
  const { width, height } = picture;
  const wider = side === 'across' ? width + 1 : width;
  const higher = side === 'down' ? height + 1 : height;
  const samples = new Float32Array(wider * higher * 4);
  for (let y = 0; y < higher; y++) {
    for (let x = 0; x < wider; x++) {
      const from = ((y % height) * width + (x % width)) * 4;
      samples.set(picture.samples.subarray(from, from + 4), (y * wider + x) * 4);
    }
  }
  return { samples, width: wider, height: higher };
}

/** Half a disc against the right edge, whose other half is missing on the left: a motif cut off. */
export function cutMotif(picture: Drawn, share: number): Drawn {
  const { width, height } = picture;
  const samples = picture.samples.slice();
  const radius = (height * share) / 2;
  const middle = Math.round(height * 0.6);
  const ink = farFrom(picture, middle, radius);
  for (let y = Math.floor(middle - radius); y <= middle + radius; y++) {
    for (let x = width - Math.ceil(radius) - 1; x < width; x++) {
      const inside = radius - Math.hypot(x + 0.5 - width, y + 0.5 - middle);
      const cover = Math.max(0, Math.min(1, 0.5 + inside));
      const at = (y * width + x) * 4;
      for (let channel = 0; channel < 3; channel++) {
        samples[at + channel] += (ink[channel] - samples[at + channel]) * cover;
      }
      samples[at + 3] += (255 - samples[at + 3]) * cover;
    }
  }
  return { ...picture, samples };
}

/** A dark ink where the two edges are light, a light one where they are dark. */
function farFrom({ samples, width, height }: Drawn, middle: number, radius: number): readonly number[] {
  let [sum, count] = [0, 0];
  for (let y = Math.floor(middle - radius); y <= middle + radius; y++) {
    const row = Math.min(height - 1, Math.max(0, y)) * width * 4;
    sum += samples[row + (width - 3) * 4 + 1] + samples[row + 5];
    count += 2;
  }
  return sum / count > 110 ? [30, 40, 90] : [230, 214, 160];
}

/** Levels, over the channels, by which a pixel beyond the edge must be wrong to be seen, and where. */
const SEEN_LEVELS = 30;
const SEEN_SHARE = 0.03;

/**
 * Whether a line of pixels stands visibly wrong against another: `belongs` gives the pixel that
 * goes on beyond place k of the edge, `comes` the one that comes there.
 */
export function isBroken(
  { samples }: Drawn,
  length: number,
  belongs: (k: number) => number,
  comes: (k: number) => number,
): boolean {
  let wrong = 0;
  for (let k = 0; k < length; k++) {
    const [a, b] = [belongs(k) * 4, comes(k) * 4];
    let apart = 0;
    for (let channel = 0; channel < 4; channel++)
      apart += Math.abs(samples[a + channel] - samples[b + channel]);
    if (apart > SEEN_LEVELS) wrong++;
  }
  return wrong > SEEN_SHARE * length;
}

export function toBytes({ samples, width, height }: Drawn): {
  pixels: Uint8Array;
  width: number;
  height: number;
} {
  // The clamped array rounds by itself.
  const pixels = new Uint8Array(Uint8ClampedArray.from(samples).buffer);
  return { pixels, width, height };
}
