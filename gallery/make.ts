import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { runDemo } from './demo.ts';
import { drawPage } from './page.ts';
import { growScan } from './scans/grow-scan.ts';

/** Makes the small pictures in gallery/ again from the demo's. */
const folder = 'out/demo';
await runDemo(folder, (line) => console.log(line));
console.log(await growScan(folder));
for (const name of readdirSync(join(folder, 'sheets'))) {
  await sharp(join(folder, 'sheets', name))
    .resize({ width: 1000 })
    .jpeg({ quality: 86 })
    .toFile(join('gallery', name.replace('.png', '.jpg')));
}
for (const name of readdirSync(join(folder, 'textures'))) {
  const piece = sharp(join(folder, 'textures', name));
  const { width = 0 } = await piece.metadata();
  await piece
    .extract({ left: 0, top: 0, width: Math.min(width, 1200), height: Math.min(width, 900) })
    .resize({ width: 1000 })
    .jpeg({ quality: 86 })
    .toFile(join('gallery', name.replace('.png', '.jpg')));
}

if (!(await drawPage(join(folder, 'artwork/nasturtium.png'), 'gallery/page.jpg')))
  console.log('There is no chromium here: gallery/page.jpg stays as it is.');
