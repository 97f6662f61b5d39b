import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { parseLayout } from 'tenter';
import { closeFile, readPicture, writePicture } from 'tenter/host';
import { randomStream } from '../../src/field/index.ts';
import type { Picture } from '../artwork/tile.ts';
import { layInRepeat } from '../in-repeat.ts';
import { canvasOf } from '../sheet.ts';
import { shrink } from '../shrink.ts';
import { paintSprigs } from './painting.ts';
import { scanned } from './scanned.ts';

/** A painting of 220 x 190 mm, laid on the glass in haste. */
const PAINTING = { width: 220, height: 190, pixelsPerMm: 10 };
const LIE = { crooked: 1.6, falling: 0.28, cut: 60 };
const LAYOUT = parseLayout('drop:1/2');
/** Wider than a sprig is long: the cut has room to run round each. */
const WITHIN = { mm: 50 };

/** The picture that shows both: px a side, the gap between, and how dense it is. */
const SHOWN = { side: 900, gap: 40, pixelsPerMm: 2.4 };

/**
 * Paints, scans and closes: `scans/sprigs.png` is the scan, `closed/sprigs.png` the tile that stands in half-drop, and
 * `sheets/sprigs-closed.png` has both side by side at one scale.
 */
export async function closeScan(folder: string): Promise<string> {
  for (const part of ['scans', 'closed', 'sheets']) mkdirSync(join(folder, part), { recursive: true });
  const [scan, out] = [join(folder, 'scans/sprigs.png'), join(folder, 'closed/sprigs.png')];
  const { width, height, pixelsPerMm } = PAINTING;
  const painting = paintSprigs(width, height, pixelsPerMm, randomStream('sprigs', '1'));
  const seen = scanned(painting, LIE);
  await writePicture(scan, { ...seen, pixelsPerMm: { x: pixelsPerMm, y: pixelsPerMm } });
  const { seams } = await closeFile({ picture: scan, layout: LAYOUT, within: WITHIN, evenLight: true, out });
  const tile = await readPicture(out);
  await writePicture(
    join(folder, 'sheets/sprigs-closed.png'),
    besideEachOther(seen, { ...tile, pixels: tile.pixels as Uint8Array }),
  );
  return `sprigs, a scan that was made to close over a half-drop: ${seams.summary}`;
}

/** The scan to the left as it lay, the cloth to the right. */
function besideEachOther(scan: Picture, tile: Picture): Picture {
  const { side, gap, pixelsPerMm } = SHOWN;
  const shown = pixelsPerMm / PAINTING.pixelsPerMm;
  const [width, height] = [Math.round(scan.width * shown), Math.round(scan.height * shown)];
  const canvas = createCanvas(width + side + 3 * gap, side + 2 * gap);
  const context = canvas.getContext('2d');
  context.fillStyle = '#f6f3ec';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(canvasOf(shrink(scan, width, height)), gap, gap);
  const size = { width: tile.width / PAINTING.pixelsPerMm, height: tile.height / PAINTING.pixelsPerMm };
  const view = { x: 0, y: 0, pixelsPerMm, width: side, height: side };
  context.drawImage(canvasOf(layInRepeat(tile, { layout: LAYOUT, ...size }, view)), width + 2 * gap, gap);
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  return { pixels: new Uint8Array(data.buffer), width: canvas.width, height: canvas.height };
}
