import { createCanvas } from '@napi-rs/canvas';
import type { Repeat } from '../../src/repeat/index.ts';
import type { Picture } from '../artwork/tile.ts';
import { layInRepeat } from '../in-repeat.ts';
import { canvasOf } from '../sheet.ts';
import { shrink } from '../shrink.ts';

/** How a scan and what was made of it are shown: px a side of each cloth, px between, and how dense all is. */
export interface Shown {
  readonly side: number;
  readonly gap: number;
  readonly pixelsPerMm: number;
}

/** A tile and how it stands in repeat. */
export interface Cloth {
  readonly tile: Picture;
  readonly repeat: Repeat;
}

/**
 * A scan as it lay, to the left, and cloths to the right of it, all at one scale.
 *
 * @param density px per mm of the scan.
 */
export function besideEachOther(
  scan: Picture,
  density: number,
  cloths: readonly Cloth[],
  { side, gap, pixelsPerMm }: Shown,
): Picture {
  const shown = pixelsPerMm / density;
  const [width, height] = [Math.round(scan.width * shown), Math.round(scan.height * shown)];
  const canvas = createCanvas(width + gap + cloths.length * (side + gap) + gap, side + 2 * gap);
  const context = canvas.getContext('2d');
  context.fillStyle = '#f6f3ec';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(canvasOf(shrink(scan, width, height)), gap, gap);
  const view = { x: 0, y: 0, pixelsPerMm, width: side, height: side };
  cloths.forEach(({ tile, repeat }, index) => {
    const left = width + 2 * gap + index * (side + gap);
    context.drawImage(canvasOf(layInRepeat(tile, repeat, view)), left, gap);
  });
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  return { pixels: new Uint8Array(data.buffer), width: canvas.width, height: canvas.height };
}
