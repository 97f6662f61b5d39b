import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Crew, makeTile, openShelf, resolveSteps, type Shelf } from '../src/host/index.ts';
import { Sight } from '../src/host/sight/sight.ts';
import { parseLayout } from '../src/repeat/index.ts';
import { writeDyer, writeSwatch } from './picture-kit.ts';

let folder: string;
let shelf: Shelf;
let crew: Crew;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-pictures-'));
  shelf = await openShelf([await writeDyer(folder)], { consent: { trust: true } });
  crew = new Crew(2);
});
afterAll(async () => {
  await crew.close();
  rmSync(folder, { recursive: true, force: true });
});

let made = 0;

async function make(parameters: Record<string, string | boolean>) {
  const out = join(folder, `made-${++made}.png`);
  const steps = resolveSteps(shelf, [{ effect: 'dyer', parameters }], '1');
  const size = { width: 8, height: 8 };
  const asked = { layout: parseLayout('drop:1/2'), size, density: 5, ground: '#ffffff', steps, out };
  const { reports } = await makeTile({ ...asked, follow: 'cloth' }, { crew });
  return {
    ...Object.fromEntries(reports[0].map(({ name, value }) => [name, value])),
    colour: await colourOf(out),
  };
}

async function colourOf(path: string): Promise<string> {
  const data = await sharp(path).raw().toBuffer();
  return `#${[...data.subarray(0, 3)].map((part) => part.toString(16).padStart(2, '0')).join('')}`;
}

describe('a picture that a parameter names', () => {
  it('is the one that the effect brings along where nothing is said', async () => {
    expect(await make({})).toEqual({
      ...{ across: 0.4, down: 0.2, first: '65535 0 0 65535', colour: '#ff0000' },
      ...{ shared: 'true', same: 'true', frozen: 'true' },
    });
  });
  it('has the size in mm that is written behind its path, whatever the file says', async () => {
    const path = await writeSwatch(join(folder, 'blue@2x.png'), '#0000ff');
    expect(await make({ cloth: path })).toMatchObject({ across: 0.4, down: 0.2, colour: '#0000ff' });
    expect(await make({ cloth: `${path}@100x80mm` })).toMatchObject({ across: 100, down: 80 });
    expect(await make({ cloth: `${path} @ 127 dpi` })).toMatchObject({ across: 0.8, down: 0.4 });
  });
  it('is refused where nobody says how large it is', async () => {
    const path = await writeSwatch(join(folder, 'bare.png'), '#00ff00', null);
    await expect(make({ cloth: path })).rejects.toThrow(
      /size in mm is known.*states no density.*bare\.png@100x80mm/,
    );
    expect(await make({ cloth: `${path}@4x2cm` })).toMatchObject({ across: 40, down: 20 });
  });
});

describe('a look', () => {
  it('reads a picture once, and again when its file has changed', async () => {
    const path = await writeSwatch(join(folder, 'seen.png'), '#ff8000');
    const sight = new Sight({ crew });
    const look = async () => {
      const steps = resolveSteps(shelf, [{ effect: 'dyer', parameters: { cloth: path } }], '1');
      const size = { width: 8, height: 8 };
      const order = { layout: parseLayout('straight'), size, density: 2, ground: '#ffffff', steps };
      const { frame } = await sight.look({ ...order, follow: 'cloth', quality: 'finished' });
      return [...frame.pixels.subarray(0, 3)];
    };
    expect(await look()).toEqual([255, 128, 0]);
    expect(await look()).toEqual([255, 128, 0]);
    expect(sight.counts.made).toBe(1);
    await writeSwatch(path, '#0080ff');
    expect(await look()).toEqual([0, 128, 255]);
    expect(sight.counts.made).toBe(2);
    rmSync(path);
    await expect(look()).rejects.toThrow(/seen\.png.*no file of that name/);
  });
});
