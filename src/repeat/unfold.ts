import { boxCount } from './lattice.ts';
import type { Layout } from './layout.ts';

/** Samples of any kind that a picture or field is made of. */
export type AnySamples = Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array | Float64Array;

/** Whether a copy of the tile is seen in a mirror, left to right or top to bottom. */
export interface Reflection {
  /** True where left and right are exchanged. */
  readonly flipX: boolean;
  /** True where top and bottom are exchanged. */
  readonly flipY: boolean;
}

/** How the tile stands at column `across` and row `down` (0 or 1 each) of the unfolded box. */
export function reflectionAt({ kind }: Layout, across: number, down: number): Reflection {
  const turned = kind === 'turn' && across % 2 === 1;
  return {
    flipX: turned || ((kind === 'mirror-x' || kind === 'mirror-xy') && across % 2 === 1),
    flipY: turned || ((kind === 'mirror-y' || kind === 'mirror-xy') && down % 2 === 1),
  };
}

/**
 * Lays a tile out over its unfolded box.
 *
 * @param tile     `width * height * channels` samples, row by row.
 * @param unfolded Receives the box: `across * down` times as many samples; may not share memory with `tile`.
 */
export function unfold<T extends AnySamples>(
  layout: Layout,
  tile: T,
  width: number,
  height: number,
  channels: number,
  unfolded: T,
): T {
  const { across, down } = boxCount(layout);
  const rowLength = width * across * channels;
  for (let row = 0; row < height * down; row++) {
    for (let column = 0; column < across; column++) {
      const { flipX, flipY } = reflectionAt(layout, column, Math.floor(row / height));
      const inside = row % height;
      const source = (flipY ? height - 1 - inside : inside) * width * channels;
      const target = row * rowLength + column * width * channels;
      copyRow(tile, source, width, channels, flipX, unfolded, target);
    }
  }
  return unfolded;
}

function copyRow<T extends AnySamples>(
  from: T,
  source: number,
  width: number,
  channels: number,
  flip: boolean,
  to: T,
  target: number,
): void {
  if (!flip) {
    to.set(from.subarray(source, source + width * channels) as never, target);
    return;
  }
  for (let x = 0; x < width; x++) {
    const pixel = source + (width - 1 - x) * channels;
    for (let channel = 0; channel < channels; channel++)
      to[target + x * channels + channel] = from[pixel + channel];
  }
}
