import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseLayout } from 'tenter';
import { closeFile, readPicture, writePicture } from 'tenter/host';
import { randomStream } from '../../src/field/index.ts';
import { besideEachOther } from './beside.ts';
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
  const repeat = { layout: LAYOUT, width: tile.width / pixelsPerMm, height: tile.height / pixelsPerMm };
  const cloth = { tile: { ...tile, pixels: tile.pixels as Uint8Array }, repeat };
  await writePicture(
    join(folder, 'sheets/sprigs-closed.png'),
    besideEachOther(seen, pixelsPerMm, [cloth], SHOWN),
  );
  return `sprigs, a scan that was made to close over a half-drop: ${seams.summary}`;
}
