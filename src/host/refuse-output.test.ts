import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { testFolder } from '../picture/testing/folder.ts';
import { densityChunk, pngFile } from '../picture/testing/png-file.ts';
import type { RenderStep } from '../render/step.ts';
import { parseLayout } from '../repeat/layout.ts';
import { checkPicture } from './check-picture.ts';
import { layTile, makeTile } from './lay-tile.ts';

const root = testFolder();
const layout = parseLayout('straight');
const size = { width: 10, height: 10 };
const PICTURE = pngFile({ width: 8, height: 8, depth: 8, colour: 0, rows: new Uint8Array(64) });

let folder: string;
let count = 0;
beforeEach(() => {
  folder = join(root, String(++count));
  mkdirSync(folder);
});

/** A step that is never taken. */
const step = (picture?: string) => ({ declares: {}, mask: picture && { picture } }) as unknown as RenderStep;

function place(name: string, content: string | Buffer = PICTURE): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** The file itself and both kinds of link to it. */
function namesOf(path: string): string[] {
  const [soft, hard] = [join(folder, 'soft.png'), join(folder, 'hard.png')];
  symlinkSync(path, soft);
  linkSync(path, hard);
  return [path, soft, hard];
}

describe('an output that is an input', () => {
  const ONE_OF_THEM = {
    kind: 'output',
    expected: 'a file other than those the result is made from',
  };

  it('is refused for the tile, a mask and any other source, by every name', async () => {
    const tile = place('tile.png');
    const mask = place('mask.png');
    const other = place('other.png', 'text of a plugin');
    const shared = { steps: [step(mask)], overwrite: true, layout, size, sources: [other] };
    for (const input of [tile, mask, other]) {
      const before = readFileSync(input);
      folder = join(folder, 'names');
      mkdirSync(folder);
      for (const out of namesOf(input)) {
        await expect(layTile({ ...shared, tile, out })).rejects.toMatchObject(ONE_OF_THEM);
        if (input === tile) continue;
        const made = { ...shared, density: 1, ground: '#ffffff', out };
        await expect(makeTile(made)).rejects.toMatchObject(ONE_OF_THEM);
      }
      expect(readFileSync(input)).toEqual(before);
    }
  });

  it('is refused for the picture that is checked', async () => {
    const picture = place('tile.png');
    for (const out of namesOf(picture)) {
      const shared = { picture, layout, overwrite: true };
      await expect(checkPicture({ ...shared, sheet: out })).rejects.toMatchObject(ONE_OF_THEM);
      await expect(checkPicture({ ...shared, afar: out })).rejects.toMatchObject(ONE_OF_THEM);
    }
    expect(readFileSync(picture)).toEqual(PICTURE);
  });
});

describe('an output that can never be written', () => {
  it('is told before anything is read', async () => {
    const file = place('file');
    const names = [
      join(file, 'a.png'),
      join(file, 'deeper', 'a.png'),
      join(folder, 'a\0b.png'),
      join(folder, `${'n'.repeat(300)}.png`),
      ...(existsSync('/proc/self') ? ['/proc/a.png', '/proc/deeper/a.png'] : []),
    ];
    for (const out of names) {
      const request = { tile: join(folder, 'nowhere.png'), steps: [step()], layout, size, out };
      await expect(layTile(request), out).rejects.toMatchObject({ kind: 'output', subject: out });
    }
    expect(readdirSync(folder)).toEqual(['file']);
  });
});

describe('what no render can be', () => {
  const made = { steps: [step()], layout, density: 10, ground: '#ffffff' };

  it('is told with what fits, where it has too many pixels', async () => {
    const out = join(folder, 'a.png');
    const large = { width: 10_000, height: 10_000 };
    const fault = await makeTile({ ...made, size: large, out }).catch((error) => error);
    expect(fault).toMatchObject({
      kind: 'usage',
      received: '100000 x 100000 px (10000 megapixels)',
      details: { fittingSize: { width: 3160, height: 3160 }, fittingDpi: 80.3 },
    });
    expect(fault.remedy).toBe('What fits: 3160 x 3160 mm at that density, or that size at 80.3 dpi.');
    // Unfolded it is four times as large.
    const quartered = { ...made, layout: parseLayout('mirror-xy'), size: { width: 2000, height: 2000 }, out };
    await expect(makeTile(quartered)).rejects.toMatchObject({ kind: 'usage' });
  });

  it('is told where the density of the file is beyond all sense', async () => {
    const rows = new Uint8Array(64);
    const chunks = [densityChunk(4_294_967_295, 4_294_967_295, 1)];
    const tile = place('dense.png', pngFile({ width: 8, height: 8, depth: 8, colour: 0, rows, chunks }));
    const out = join(folder, 'a.png');
    await expect(layTile({ tile, steps: [step()], layout, out })).rejects.toMatchObject({
      kind: 'usage',
      expected: 'sides from 1 mm to 10 m',
      received: '0.00000186265 x 0.00000186265 mm',
    });
  });
});
