import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ShadeCard } from '../../ink/index.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { type PlateRequest, writePlates } from './write-plates.ts';

const run = promisify(execFile);
const onPath = (tool: string) =>
  (process.env.PATH ?? '').split(':').some((folder) => existsSync(join(folder, tool)));

const ink = (name: string, colour: [number, number, number], kind: 'ground' | 'ink' = 'ink') => ({
  ...{ name, kind, colour, covers: true, note: '' },
});
const CARD: ShadeCard = {
  name: 'bars',
  inks: [
    ink('ground', [243, 234, 216], 'ground'),
    ink('straw', [220, 180, 60]),
    ink('leaf', [47, 111, 79]),
    ink('Café', [60, 30, 20]),
    ink('sky', [90, 150, 220]),
    ink('rose', [220, 60, 110]),
  ],
};
const [WIDTH, HEIGHT] = [61, 60];

/** Bars of all inks, the ground too: every pixel one ink of the card. */
function bars(): PlateRequest['picture'] {
  const pixels = new Uint8Array(4 * WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) pixels.set([...CARD.inks[barAt(x, y)].colour, 255], 4 * (y * WIDTH + x));
  return { pixels, width: WIDTH, height: HEIGHT };
}
const barAt = (x: number, y: number) => (Math.floor(x / 7) + Math.floor(y / 11)) % CARD.inks.length;
const sizeMm = { width: 61, height: 60 };

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tenter-plates-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

let count = 0;
async function write(more: Partial<PlateRequest> = {}) {
  const out = join(folder, `plates-${count++}`);
  const layout = parseLayout('straight');
  const report = await writePlates({ picture: bars(), card: CARD, layout, size: sizeMm, out, ...more });
  return { out, report };
}

describe('plates', () => {
  it.each(['none', 'packbits', 'deflate'] as const)(
    'are exact in 1 and 8 bits for a picture of pure inks, packed by %s, as sharp reads them',
    async (packing) => {
      for (const bits of [1, 8] as const) {
        const { out, report } = await write({ bits, packing });
        for (const { file, order } of report.plates) {
          const { data, info } = await sharp(join(out, file))
            .greyscale()
            .raw()
            .toBuffer({ resolveWithObject: true });
          expect(info.width).toBe(WIDTH);
          for (let at = 0; at < WIDTH * HEIGHT; at++) {
            const isInk = barAt(at % WIDTH, Math.floor(at / WIDTH)) === order;
            expect(data[at * info.channels], `${file} ${at}`).toBe(isInk ? 0 : 255);
          }
        }
      }
    },
  );

  it('tell coverage in percent and cm2, and a proof of pure inks is the picture itself', async () => {
    const { out, report } = await write({ bits: 1, proof: true });
    const leaf = report.plates[1];
    let pixels = 0;
    for (let y = 0; y < HEIGHT; y++) for (let x = 0; x < WIDTH; x++) if (barAt(x, y) === 2) pixels++;
    expect(leaf.coverage).toBeCloseTo((100 * pixels) / WIDTH / HEIGHT, 3);
    expect(leaf.cm2).toBeCloseTo(pixels / 100, 3);
    expect(report.proof?.difference.worst).toBeLessThan(0.01);
    const proof = await sharp(join(out, 'proof.png')).ensureAlpha().raw().toBuffer();
    expect(Buffer.compare(proof, Buffer.from(bars().pixels))).toBe(0);
    const told = JSON.parse(await readFile(join(out, 'plates.json'), 'utf8'));
    expect(told.plates.map(({ name }: { name: string }) => name)).toEqual([
      'straw',
      'leaf',
      'Café',
      'sky',
      'rose',
    ]);
  });

  it.skipIf(!onPath('tiffinfo'))('say name, density and separated inks to tiffinfo', async () => {
    const { out, report } = await write();
    const single = (await run('tiffinfo', [join(out, report.plates[0].file)])).stdout;
    expect(single).toMatch(/PageName: straw/);
    expect(single).toMatch(/Resolution: 10, 10 pixels\/cm/);
    expect(single).toMatch(/min-is-white/);
    const all = await write({ oneFile: true, packing: 'deflate' });
    const { stdout, stderr } = await run('tiffinfo', [join(all.out, 'plates.tif')]);
    // libtiff knows four separated inks and takes more for extra samples; TIFF 6.0, section 16 wants none said.
    expect(stderr.replace(/.*ExtraSamples.*\n/, '')).toBe('');
    expect(stdout).toMatch(/Photometric Interpretation: separated/);
    expect(stdout).toMatch(/InkSet: 2/);
    expect(stdout).toMatch(/NumberOfInks: 5/);
    expect(stdout).toMatch(/straw.*leaf.*Cafe.*sky.*rose/s);
  });

  it.skipIf(!onPath('convert'))('have the same samples in ImageMagick', async () => {
    const { out, report } = await write({ bits: 8 });
    const { stdout } = await run('convert', [join(out, report.plates[1].file), '-depth', '8', 'gray:-'], {
      encoding: 'buffer',
    });
    expect(stdout.length).toBe(WIDTH * HEIGHT);
    stdout.forEach((value, at) => {
      expect(value).toBe(barAt(at % WIDTH, Math.floor(at / WIDTH)) === 2 ? 0 : 255);
    });
  });

  it.skipIf(!onPath('convert'))(
    'have the same samples in ImageMagick where all are in one file',
    async () => {
      const { out } = await write({ oneFile: true });
      // It calls the first four of separated inks C, M, Y and K; the more there is of one, the higher its sample.
      for (const [index, channel] of [...'CMYK'].entries()) {
        const asked = [join(out, 'plates.tif'), '-channel', channel, '-separate', '-depth', '8', 'gray:-'];
        const { stdout } = await run('convert', asked, { encoding: 'buffer' });
        expect(stdout.length).toBe(WIDTH * HEIGHT);
        stdout.forEach((value, at) => {
          expect(value).toBe(barAt(at % WIDTH, Math.floor(at / WIDTH)) === index + 1 ? 255 : 0);
        });
      }
    },
  );

  it('have the inks before it under an ink that overprints, whose proof is the picture where it covers', async () => {
    const { report } = await write({ overprint: ['rose'], proof: true });
    const beside = await write();
    const coverage = (of: typeof report, name: string) =>
      of.plates.find((plate) => plate.name === name)!.coverage;
    expect(report.overprint).toEqual(['rose']);
    expect(coverage(report, 'rose')).toBe(coverage(beside.report, 'rose'));
    expect(report.totalCoverage).toBeGreaterThan(beside.report.totalCoverage + 5);
    expect(report.proof!.difference.worst).toBe(0);
    await expect(write({ overprint: ['roze'] })).rejects.toThrow(/rose/);
    const first = await write({ overprint: [report.plates[0].name] });
    expect(first.report.warnings.join()).toContain('overprints nothing');
  });

  it('stand in a margin with marks where they are asked for, the repeat in it as it is', async () => {
    const [{ out, report }, plain] = [await write({ marks: true }), await write()];
    const [first] = report.plates;
    expect(report.marginPx).toBe(10);
    expect(first.coverage).toBe(plain.report.plates[0].coverage);
    const samples = async (folder: string, part?: boolean) => {
      const image = sharp(join(folder, first.file));
      if (part) image.extract({ left: 10, top: 10, width: WIDTH, height: HEIGHT });
      const { data, info } = await image.raw().toBuffer({ resolveWithObject: true });
      return { data, size: [info.width, info.height] };
    };
    expect((await samples(out)).size).toEqual([WIDTH + 20, HEIGHT + 20]);
    const inside = await samples(out, true);
    expect(Buffer.compare(inside.data, (await samples(plain.out)).data)).toBe(0);
    await expect(write({ marks: true, size: undefined })).rejects.toThrow(/--size/);
  });

  it('leave nothing where the work is stopped, and replace no folder unasked', async () => {
    const before = await readdir(folder);
    const stopper = new AbortController();
    const layout = parseLayout('straight');
    const out = join(folder, 'stopped');
    const request = { picture: bars(), card: CARD, layout, out };
    const onProgress = () => stopper.abort();
    await expect(writePlates(request, { onProgress, signal: stopper.signal })).rejects.toThrow(/stop/);
    expect(await readdir(folder)).toEqual(before);
    await writePlates(request);
    await expect(writePlates(request)).rejects.toThrow(/--overwrite/);
    await writePlates({ ...request, overwrite: true });
    await writeFile(join(out, 'my-own-notes.txt'), 'kept');
    await expect(writePlates({ ...request, overwrite: true })).rejects.toThrow(/another name/);
    expect(await readFile(join(out, 'my-own-notes.txt'), 'utf8')).toBe('kept');
    await expect(writePlates({ ...request, out: folder, overwrite: true })).rejects.toThrow(/another name/);
  });

  it('refuse what cannot be done, and say what to do', async () => {
    await expect(write({ size: undefined, trap: 0.2 })).rejects.toThrow(/--size/);
    await expect(write({ bits: 1, oneFile: true })).rejects.toThrow(/--one-file/);
    await expect(write({ card: { name: 'bare', inks: [CARD.inks[0]] } })).rejects.toThrow(/at least one ink/);
  });
});
