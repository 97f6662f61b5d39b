import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { writePicture } from 'tenter/host';
import { COLLECTION } from './artwork/collection.ts';
import { drawTile } from './artwork/tile.ts';

/** Draws the artwork of the demo collection as proofs, for `npm run collection`. */
const folder = 'out/collection/artwork';
const PIXELS_PER_MM = 4;
mkdirSync(folder, { recursive: true });
for (const artwork of COLLECTION) {
  const pixelsPerMm = { x: PIXELS_PER_MM, y: PIXELS_PER_MM };
  const path = join(folder, `${artwork.name}.png`);
  await writePicture(path, { ...drawTile(artwork, PIXELS_PER_MM), pixelsPerMm }, { overwrite: true });
}
