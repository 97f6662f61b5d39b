import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { type Layout, parseLayout, STRAIGHT } from 'tenter';
import { Crew, closeFile, makeTile, openShelf, readPicture, resolveSteps, writePicture } from 'tenter/host';
import { randomStream } from '../../src/field/index.ts';
import type { Picture } from '../artwork/tile.ts';
import { layInRepeat } from '../in-repeat.ts';
import { canvasOf } from '../sheet.ts';
import { shrink } from '../shrink.ts';
import { paintLimewash } from './painting.ts';
import { scanned } from './scanned.ts';

const PAINTING = { width: 200, height: 180, pixelsPerMm: 10 };
const LIE = { crooked: -2.1, falling: 0.3, cut: 70 };
const HALF_DROP = parseLayout('drop:1/2');
const WALL = { width: 640, height: 640 };
const GROWN_PIXELS_PER_MM = 5;
/** The picture that shows all three: the gap between, px, and how dense it is. */
const SHOWN = { gap: 40, pixelsPerMm: 1.6 };

/**
 * A lime wash painted, scanned, closed over a half-drop and grown to a wall: `scans/lime-wash.png`,
 * `closed/lime-wash.png`, `grown/lime-wash.png`, and `sheets/lime-wash-grown.png` with all three at one scale.
 */
export async function growScan(folder: string): Promise<string> {
  for (const part of ['scans', 'closed', 'grown', 'sheets'])
    mkdirSync(join(folder, part), { recursive: true });
  const at = (part: string) => join(folder, part, 'lime-wash.png');
  const { width, height, pixelsPerMm } = PAINTING;
  const density = { x: pixelsPerMm, y: pixelsPerMm };
  const scan = scanned(paintLimewash(width, height, pixelsPerMm, randomStream('lime wash', '1')), LIE);
  await writePicture(at('scans'), { ...scan, pixelsPerMm: density });
  const { seams } = await closeFile({
    picture: at('scans'),
    layout: HALF_DROP,
    evenLight: true,
    out: at('closed'),
  });
  await growWall(at('scans'), at('grown'));
  await writePicture(
    join(folder, 'sheets/lime-wash-grown.png'),
    await allThree(scan, at('closed'), at('grown')),
  );
  return `lime wash, a scan that was made to close over a half-drop and grown to a wall: ${seams.summary}`;
}

/** The scan as the effect `swatch` grows it over a wall, in its own colours. */
async function growWall(picture: string, out: string): Promise<void> {
  const shelf = await openShelf();
  const parameters = { picture, layAs: 'colour' };
  const steps = resolveSteps(shelf, [{ effect: 'swatch', parameters }], picture);
  const crew = new Crew();
  try {
    await makeTile(
      { layout: STRAIGHT, size: WALL, density: GROWN_PIXELS_PER_MM, steps, ground: '#ffffff', out },
      { crew },
    );
  } finally {
    await crew.close();
  }
}

/** The scan as it lay, the cloth as large as the wall, and the wall. */
async function allThree(scan: Picture, closed: string, grown: string): Promise<Picture> {
  const { gap, pixelsPerMm } = SHOWN;
  const shown = pixelsPerMm / PAINTING.pixelsPerMm;
  const [width, height] = [Math.round(scan.width * shown), Math.round(scan.height * shown)];
  const side = Math.round(WALL.width * pixelsPerMm);
  const canvas = createCanvas(width + 2 * side + 4 * gap, side + 2 * gap);
  const context = canvas.getContext('2d');
  context.fillStyle = '#f6f3ec';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(canvasOf(shrink(scan, width, height)), gap, gap);
  context.drawImage(await inRepeat(closed, HALF_DROP, PAINTING.pixelsPerMm), width + 2 * gap, gap);
  context.drawImage(await inRepeat(grown, STRAIGHT, GROWN_PIXELS_PER_MM), width + side + 3 * gap, gap);
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  return { pixels: new Uint8Array(data.buffer), width: canvas.width, height: canvas.height };
}

async function inRepeat(file: string, layout: Layout, density: number) {
  const { pixelsPerMm } = SHOWN;
  const tile = await readPicture(file);
  const size = { width: tile.width / density, height: tile.height / density };
  const side = Math.round(WALL.width * pixelsPerMm);
  const view = { x: 0, y: 0, pixelsPerMm, width: side, height: side };
  return canvasOf(layInRepeat({ ...tile, pixels: tile.pixels as Uint8Array }, { layout, ...size }, view));
}
