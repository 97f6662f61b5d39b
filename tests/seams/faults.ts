import type { Layout } from '../../src/repeat/layout.ts';

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

/** A tile whose right edge is cut clean over a part of its length: the columns there slid down. */
export function localFault(picture: Drawn, share: number, ink: readonly [number, number, number]): Drawn {
  const { width, height } = picture;
  const samples = picture.samples.slice();
  const length = Math.round(height * share);
  const top = Math.round(height * 0.6);
  const radius = length / 2;
  // Half a disc against the right edge: its other half is missing on the left.
  for (let y = Math.floor(top - radius); y <= top + radius; y++) {
    for (let x = width - Math.ceil(radius) - 1; x < width; x++) {
      const inside = 0.5 - (Math.hypot(x + 0.5 - width, y + 0.5 - top) - radius);
      const cover = Math.max(0, Math.min(1, inside));
      const at = (y * width + x) * 4;
      for (let channel = 0; channel < 3; channel++) {
        samples[at + channel] += (ink[channel] - samples[at + channel]) * cover;
      }
      samples[at + 3] += (255 - samples[at + 3]) * cover;
    }
  }
  return { ...picture, samples };
}

/** Whether a layout's right and left edges, or bottom and top, meet by translation. */
export function translates({ kind }: Layout): { readonly across: boolean; readonly down: boolean } {
  return {
    across: kind === 'straight' || kind === 'drop' || kind === 'brick' || kind === 'mirror-y',
    down:
      kind === 'straight' || kind === 'drop' || kind === 'brick' || kind === 'mirror-x' || kind === 'turn',
  };
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
