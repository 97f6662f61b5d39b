import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sha256 } from '../src/collection/disk/hash.ts';
import { planCollection, readCollection, runItems } from '../src/collection/index.ts';
import { Crew, makeTile, openShelf, resolveSteps, type Shelf } from '../src/host/index.ts';
import { openPictureFiles, withPictures } from '../src/host/parameter-pictures.ts';
import { openRecipe } from '../src/host/plugins/open-recipe.ts';
import { Sight } from '../src/host/sight/sight.ts';
import { parseLayout } from '../src/repeat/index.ts';
import { writeTile } from './collection-kit.ts';
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

it('a picture of another name is a slip of its author, told with the names that there are', async () => {
  await expect(make({ spoil: true })).rejects.toThrow(
    /setting\.picture\("colth"\) names no picture parameter of dyer; it has cloth/,
  );
});

describe('what a picture costs', () => {
  it('is not the effect that holds its samples: they are beyond what it may take', async () => {
    const path = join(folder, 'large.png');
    const plain = sharp({ create: { width: 4000, height: 2000, channels: 3, background: '#102030' } });
    await plain.withMetadata({ density: 300 }).png().toFile(path);
    const small = new Crew(1, { megabytes: 32 });
    const steps = resolveSteps(shelf, [{ effect: 'dyer', parameters: { cloth: path } }], '1');
    const size = { width: 8, height: 8 };
    const out = join(folder, 'large-made.png');
    const asked = { layout: parseLayout('straight'), size, density: 5, ground: '#ffffff', steps, out };
    try {
      // 64 MB of samples.
      await makeTile({ ...asked, follow: 'cloth' }, { crew: small });
    } finally {
      await small.close();
    }
    expect(await colourOf(out)).toBe('#102030');
  });
  it('is paid once, however many steps and parameters name it, and whatever size they give it', async () => {
    const path = await writeSwatch(join(folder, 'often.png'), '#123456');
    const files = openPictureFiles();
    const step = (cloth: string) => ({ effect: 'dyer', parameters: { cloth } });
    const steps = resolveSteps(shelf, [step(path), step(`${path}@3cm`), step(path)], '1');
    const given = await withPictures(steps, files);
    const pictures = given.map(({ order }) => order.pictures!.cloth);
    expect(new Set(pictures.map(({ samples }) => samples)).size).toBe(1);
    expect(pictures.map(({ mmPerPixelX }) => mmPerPixelX)).toEqual([0.1, 7.5, 0.1]);
  });
  it('is read through a link, as a mask is, and never replaced through one', async () => {
    const path = await writeSwatch(join(folder, 'behind.png'), '#654321');
    const link = join(folder, 'link.png');
    symlinkSync(path, link);
    expect(await make({ cloth: link })).toMatchObject({ colour: '#654321' });
    const steps = resolveSteps(shelf, [{ effect: 'dyer', parameters: { cloth: path } }], '1');
    const asked = {
      layout: parseLayout('straight'),
      size: { width: 8, height: 8 },
      density: 5,
      ground: '#ffffff',
    };
    await expect(
      makeTile({ ...asked, steps, out: link, overwrite: true, follow: 'cloth' }, { crew }),
    ).rejects.toThrow(/one of the files that the result is made from/);
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

describe('a collection', () => {
  const inFolder = (...names: string[]) => join(folder, 'set', ...names);
  beforeAll(async () => {
    mkdirSync(inFolder('cloth'), { recursive: true });
    await writeTile(inFolder('leaf.png'));
    await writeSwatch(inFolder('cloth', 'red.png'), '#c00000');
    await writeSwatch(inFolder('cloth', 'bare.png'), '#0000c0', null);
  });

  const ENTRY = {
    summary: 'Dyed.',
    tiles: [{ picture: 'leaf.png' }],
    recipes: [{ effect: 'dyer' }],
    vary: { 'dyer.cloth': ['cloth/red.png', 'cloth/bare.png@4x2cm'], seed: [1, 2] },
  };

  async function planOf(entry: object = ENTRY) {
    writeFileSync(inFolder('set.json'), JSON.stringify(entry));
    return planCollection(await readCollection(inFolder('set.json')), shelf);
  }

  it('takes paths from its own folder, names items by them, and keeps what a picture shows in the record', async () => {
    const plan = await planOf();
    expect(plan.items.map(({ name }) => name)).toEqual([
      'leaf/dyer-cloth-red.png-1.png',
      'leaf/dyer-cloth-red.png-2.png',
      'leaf/dyer-cloth-bare.png-4x2cm-1.png',
      'leaf/dyer-cloth-bare.png-4x2cm-2.png',
    ]);
    expect(plan.sources).toContain(inFolder('cloth', 'red.png'));
    const { made, failed } = await runItems(plan, plan.items, { shelf, workers: 2 });
    expect([made, failed]).toEqual([4, []]);
    expect(await colourOf(inFolder('made', plan.items[2].name))).toBe('#0000c0');
    const record = JSON.parse(readFileSync(inFolder('made', `${plan.items[2].name}.json`), 'utf8'));
    expect(record.pictures).toEqual([{ cloth: '../../cloth/bare.png@4x2cm' }]);
    expect(record.inputs.steps[0].parameters.cloth).toMatchObject({
      ...{ name: 'bare.png', widthPx: 4, heightPx: 2, stated: '4x2cm' },
      sha256: sha256(readFileSync(inFolder('cloth', 'bare.png'))),
    });
    expect(JSON.stringify(record)).not.toContain(folder);
  });
  it('makes again what a changed picture is in, and nothing else', async () => {
    await writeSwatch(inFolder('cloth', 'red.png'), '#d00000');
    const plan = await planOf();
    const { made, kept } = await runItems(plan, plan.items, { shelf, workers: 2 });
    expect([made, kept]).toEqual([2, 2]);
  });
  it('loses only what a picture is in that changed or went after it was planned, and says which', async () => {
    const entry = {
      ...ENTRY,
      vary: { 'dyer.cloth': ['cloth/red.png', 'cloth/bare.png@5x2cm', 'cloth/gone.png'] },
    };
    await writeSwatch(inFolder('cloth', 'gone.png'), '#00c000');
    const plan = await planOf(entry);
    rmSync(inFolder('cloth', 'gone.png'));
    await writeSwatch(inFolder('cloth', 'red.png'), '#e00000');
    const { made, failed } = await runItems(plan, plan.items, { shelf, workers: 2 });
    expect(made).toBe(1);
    expect(failed.map(({ name }) => name).sort()).toEqual([
      'leaf/dyer-cloth-gone.png.png',
      'leaf/dyer-cloth-red.png.png',
    ]);
    expect(JSON.stringify(failed)).toMatch(/gone\.png.*was planned/);
  });
  it('tells a picture that cannot be used before anything is made', async () => {
    const vary = { 'dyer.cloth': ['cloth/read.png', 'cloth/bare.png'] };
    const message = await planOf({ ...ENTRY, vary }).catch((error) => error.message);
    expect(message).toMatch(/cloth\/read\.png.*Did you mean/s);
    expect(message).toMatch(/bare\.png@100x80mm/);
  });
});

describe('a path', () => {
  it('starts from the recipe or the preset that names it', async () => {
    const [near, far] = [join(folder, 'near'), join(folder, 'far')];
    for (const place of [near, far, join(folder, 'dyer', 'presets')]) mkdirSync(place, { recursive: true });
    await writeSwatch(join(near, 'a.png'), '#010203');
    await writeSwatch(join(folder, 'dyer', 'presets', 'own.png'), '#040506');
    const step = { effect: 'dyer', parameters: { cloth: 'a.png@10mm' } };
    writeFileSync(join(near, 'one.json'), JSON.stringify({ summary: 'One.', steps: [step] }));
    const kept = { effect: 'dyer', summary: 'Kept.', parameters: { cloth: './own.png' } };
    writeFileSync(join(folder, 'dyer', 'presets', 'kept.json'), JSON.stringify(kept));
    const fresh = await openShelf([join(folder, 'dyer')], { consent: { trust: true } });
    const { steps } = await openRecipe(join(near, 'one.json'), fresh);
    expect(resolveSteps(fresh, steps, '1')[0].order.parameters.cloth).toBe(`${join(near, 'a.png')}@10mm`);
    const preset = resolveSteps(fresh, [{ effect: 'dyer', preset: 'kept' }], '1');
    expect(preset[0].order.parameters.cloth).toBe(join(folder, 'dyer', 'presets', 'own.png'));
    const entry = {
      summary: 'Set.',
      tiles: [{ picture: '../set/leaf.png' }],
      recipes: [{ recipe: '../near/one.json' }],
    };
    writeFileSync(join(far, 'set.json'), JSON.stringify(entry));
    const { items } = await planCollection(await readCollection(join(far, 'set.json')), fresh);
    expect(items[0].steps[0].order.parameters.cloth).toBe(`${join(near, 'a.png')}@10mm`);
  });
});
