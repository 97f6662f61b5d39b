import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { RIPPLE, tenter, writeCollection, writeTile } from './collection-kit.ts';

/** A name that would be markup, or end its element, if it were taken as such. */
export const WILD_NAME = '</script><img src=x onerror="document.title=1"> & "Sons"';

/** A white tile with a black line every 10 mm across and down. */
export async function writeRuledTile(
  path: string,
  widthMm: number,
  heightMm: number,
  perMm: number,
): Promise<void> {
  const [width, height] = [widthMm * perMm, heightMm * perMm];
  const samples = Buffer.alloc(width * height * 3, 255);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const isLine = x % (10 * perMm) < perMm || y % (10 * perMm) < perMm;
      if (isLine) samples.fill(0, (y * width + x) * 3, (y * width + x) * 3 + 3);
    }
  }
  await sharp(samples, { raw: { width, height, channels: 3 } })
    .png()
    .toFile(path);
}

/**
 * Makes the run that sheets and page are tried on: two ruled tiles at one place's opacity of 0, which
 * leaves them as they are, and of 1; one seed of three fails.
 */
export async function makeRun(folder: string): Promise<string> {
  mkdirSync(join(folder, 'art'), { recursive: true });
  writeFileSync(join(folder, 'ripple.ts'), RIPPLE);
  await writeRuledTile(join(folder, 'art/large.png'), 40, 30, 4);
  await writeRuledTile(join(folder, 'art/small.png'), 20, 20, 10);
  await writeTile(join(folder, 'art/sprig.png'));
  const file = writeCollection(join(folder, 'spring.json'), {
    summary: `Spring: ${WILD_NAME}`,
    tiles: [
      { picture: 'art/large.png', layout: 'drop:1/2', size: '40x30mm' },
      { picture: 'art/small.png', size: '20x20mm' },
      { picture: 'art/sprig.png', name: WILD_NAME, size: '9.6x8mm' },
    ],
    recipes: [{ effect: 'ripple' }],
    vary: { seed: ['1', '2', 'bad-throw'], opacity: [0, 1] },
    except: [{ tile: ['small', WILD_NAME.replaceAll('*', '')], seed: 'bad-throw' }],
    output: { name: '{tile}/{seed}-{opacity}' },
  });
  const ran = await tenter(folder, ['collect', 'run', file, '--plugins', 'ripple.ts', '--trust']);
  if (ran.code !== 6) throw new Error(`the run should fail in part: ${ran.out}${ran.err}`);
  return file;
}
