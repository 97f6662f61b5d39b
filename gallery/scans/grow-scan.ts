import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Layout, parseLayout, STRAIGHT } from 'tenter';
import { Crew, closeFile, makeTile, openShelf, readPicture, resolveSteps, writePicture } from 'tenter/host';
import { randomStream } from '../../src/field/index.ts';
import { besideEachOther, type Cloth } from './beside.ts';
import { paintLimewash } from './painting.ts';
import { scanned } from './scanned.ts';

const PAINTING = { width: 200, height: 180, pixelsPerMm: 10 };
const LIE = { crooked: -2.1, falling: 0.3, cut: 70 };
const HALF_DROP = parseLayout('drop:1/2');
const WALL = { width: 640, height: 640 };
const GROWN_PIXELS_PER_MM = 5;
/** The picture that shows all three: the cloth as large as the wall, the gap between, px, and how dense it is. */
const SHOWN = { side: 1024, gap: 40, pixelsPerMm: 1.6 };

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
  const cloths = [
    await clothOf(at('closed'), HALF_DROP, pixelsPerMm),
    await clothOf(at('grown'), STRAIGHT, GROWN_PIXELS_PER_MM),
  ];
  await writePicture(
    join(folder, 'sheets/lime-wash-grown.png'),
    besideEachOther(scan, pixelsPerMm, cloths, SHOWN),
  );
  return `lime wash, a scan that was made to close over a half-drop and grown to a wall: ${seams.summary}`;
}

/** The scan as the effect `swatch` grows it over a wall, in its own colours. */
async function growWall(picture: string, out: string): Promise<void> {
  const shelf = await openShelf();
  const parameters = { picture, layAs: 'colour' };
  const steps = resolveSteps(shelf, [{ effect: 'swatch', parameters }], '1');
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

async function clothOf(file: string, layout: Layout, density: number): Promise<Cloth> {
  const tile = await readPicture(file);
  const repeat = { layout, width: tile.width / density, height: tile.height / density };
  return { tile: { ...tile, pixels: tile.pixels as Uint8Array }, repeat };
}
