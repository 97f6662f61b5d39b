import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { formatHex } from '../../colour/hex.ts';
import { STRAIGHT } from '../../repeat/layout.ts';
import { readCard } from './card-file.ts';
import { type InksDrawings, type InksRequest, inksOfTile } from './tile-inks.ts';

const GROUND = '#f3ead8';
const INKS = ['#b8352f', '#1d3557', '#2f6f4f', '#e0b040'];
const [WIDTH, HEIGHT] = [320, 240];
const blank = { pixels: new Uint8Array(4).fill(255), width: 1, height: 1 };
const NOTHING_DRAWN: InksDrawings = { card: () => blank, curve: () => blank };

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'inks-'));
});
afterEach(() => rm(folder, { recursive: true }));

/** Dots of every ink and thin lines of the second on the ground, with soft edges, as a drawing program makes them. */
function design(): Sharp {
  const dots = INKS.flatMap((ink, index) =>
    [0, 1, 2].map(
      (row) =>
        `<circle cx="${40.3 + 80 * index}" cy="${40.7 + 80 * row}" r="${27 - 6 * row}" fill="${ink}"/>`,
    ),
  );
  const lines = `<path d="M0 80.5 C 80 60 240 100 320 80.5" stroke="${INKS[1]}" stroke-width="2.4" fill="none"/>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}"><rect width="100%" height="100%" fill="${GROUND}"/>${dots.join('')}${lines}</svg>`;
  return sharp(Buffer.from(svg)).removeAlpha();
}

async function inks(file: string, more: Partial<InksRequest> = {}, signal?: AbortSignal) {
  const request = {
    picture: join(folder, file),
    layout: STRAIGHT,
    out: join(folder, 'out.card.json'),
    ...more,
  };
  return inksOfTile(request, NOTHING_DRAWN, { signal });
}

const hexes = (report: Awaited<ReturnType<typeof inks>>) =>
  report.card.inks.map(({ colour }) => formatHex(colour.map((byte) => byte / 255) as never));

describe('the inks of a flat design', () => {
  it('are found exactly behind soft edges, and the ground is the ground', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    const report = await inks('flat.png', { size: { width: 100, height: 50 } });
    expect(hexes(report)[0]).toBe(GROUND);
    expect(report.card.inks[0]).toMatchObject({ name: 'ground', kind: 'ground' });
    expect(hexes(report).slice(1).sort()).toEqual([...INKS].sort());
    expect(report.judgement).toMatch(/^flat/);
    expect(report.areas.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 6);
    expect(report.areas.reduce((sum, { cm2 }) => sum + cm2!, 0)).toBeCloseTo(50, 4);
    // Three dots of the third ink, by their radii.
    const dots = Math.PI * (27 ** 2 + 21 ** 2 + 15 ** 2);
    const green = report.areas.find(({ ink }) => ink.colour[1] === 0x6f)!;
    expect(green.share * WIDTH * HEIGHT).toBeGreaterThan(0.97 * dots);
    expect(green.share * WIDTH * HEIGHT).toBeLessThan(1.03 * dots);
    expect(await readCard(join(folder, 'out.card.json'))).toEqual(report.card);
  });
  it('are found through the noise of a JPEG, within three bytes', async () => {
    await design().jpeg({ quality: 75 }).toFile(join(folder, 'flat.jpg'));
    const report = await inks('flat.jpg');
    expect(report.card.inks).toHaveLength(1 + INKS.length);
    for (const hex of [GROUND, ...INKS]) {
      const wanted = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
      const off = report.card.inks.map(({ colour }) =>
        Math.max(...colour.map((byte, channel) => Math.abs(byte - wanted[channel]))),
      );
      expect(Math.min(...off), hex).toBeLessThanOrEqual(3);
    }
  });
  it('may be told what the ground is', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    const report = await inks('flat.png', { ground: INKS[2] });
    expect(hexes(report)[0]).toBe(INKS[2]);
    expect(report.card.inks.filter(({ kind }) => kind === 'ground')).toHaveLength(1);
    expect(new Set(report.card.inks.map(({ name }) => name)).size).toBe(5);
  });
  it('are fewer where fewer are asked for', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    const report = await inks('flat.png', { count: 3 });
    expect(report.card.inks).toHaveLength(3);
    const more = await inks('flat.png', { count: 9, overwrite: true });
    expect(more.card.inks).toHaveLength(5);
    expect(more.choice).toMatch('5 and no more, though 9 were asked for');
  });
});

describe('the inks of a painted design', () => {
  /** A wash from one colour to another and back, mixed in encoded values as programs do. */
  async function wash(file: string) {
    const pixels = Buffer.alloc(3 * 300 * 40);
    for (let at = 0; at < 300 * 40; at++) {
      const part = 0.5 + 0.5 * Math.cos((2 * Math.PI * (at % 300)) / 300);
      [0x1d, 0x35, 0x90].forEach((byte, c) => {
        pixels[3 * at + c] = Math.round(255 * part + byte * (1 - part));
      });
    }
    await sharp(pixels, { raw: { width: 300, height: 40, channels: 3 } })
      .png()
      .toFile(join(folder, file));
  }
  it('are two for a wash from white to blue', async () => {
    await wash('wash.png');
    const report = await inks('wash.png');
    expect(report.judgement).toMatch(/^painted/);
    expect(report.card.inks).toHaveLength(2);
    expect(report.error.mean).toBeLessThan(2.5);
    expect(report.choice).toMatch('2 suggested');
    expect(report.curve[0].count).toBe(2);
  });
});

describe('a picture measured by a card', () => {
  it('finds nothing anew, and writes no card', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    await inks('flat.png');
    const card = join(folder, 'out.card.json');
    const edited = (await readFile(card, 'utf8')).replaceAll(INKS[0], '#c04040');
    await writeFile(card, edited);
    const report = await inks('flat.png', { card, out: join(folder, 'second.card.json') });
    expect(report.card.inks.some(({ colour }) => colour[0] === 0xc0)).toBe(true);
    expect(report.error.worst).toBeGreaterThan(1);
    expect((await readdir(folder)).sort()).toEqual(['flat.png', 'out.card.json']);
    expect(await readFile(card, 'utf8')).toBe(edited);
  });
  it('is not written over without being told to', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    await writeFile(join(folder, 'out.card.json'), 'mine');
    await expect(inks('flat.png')).rejects.toThrow('--overwrite');
    expect(await readFile(join(folder, 'out.card.json'), 'utf8')).toBe('mine');
  });
});

describe('pictures of every sort', () => {
  it('takes one colour for the ground', async () => {
    const one = sharp({ create: { width: 20, height: 20, channels: 3, background: '#336699' } });
    await one.png().toFile(join(folder, 'one.png'));
    expect(hexes(await inks('one.png'))).toEqual(['#336699']);
  });
  it('takes one pixel', async () => {
    const one = sharp({ create: { width: 1, height: 1, channels: 3, background: '#336699' } });
    await one.png().toFile(join(folder, 'one.png'));
    expect(hexes(await inks('one.png'))).toEqual(['#336699']);
  });
  it('takes 1 bit', async () => {
    await design()
      .greyscale()
      .threshold(120)
      .png({ palette: true, colours: 2 })
      .toFile(join(folder, 'bits.png'));
    expect(hexes(await inks('bits.png')).sort()).toEqual(['#000000', '#ffffff']);
  });
  it('takes 16 bit, and what is transparent for the ground', async () => {
    const data = await design().raw().toBuffer();
    const raw = { width: WIDTH, height: HEIGHT, channels: 3 as const };
    const deep = Uint16Array.from(data, (byte) => 257 * byte);
    await sharp(deep, { raw }).toColourspace('rgb16').png().toFile(join(folder, 'deep.png'));
    expect(
      hexes(await inks('deep.png'))
        .slice(1)
        .sort(),
    ).toEqual([...INKS].sort());
    const dot = `<svg xmlns="http://www.w3.org/2000/svg" width="90" height="90"><circle cx="45" cy="45" r="30" fill="#b8352f"/></svg>`;
    await sharp(Buffer.from(dot)).png().toFile(join(folder, 'clear.png'));
    const clear = await inks('clear.png', { overwrite: true, ground: '#f3ead8' });
    expect(hexes(clear)).toEqual(['#f3ead8', '#b8352f']);
  });
  it('takes CMYK', async () => {
    await design().toColourspace('cmyk').tiff({ compression: 'lzw' }).toFile(join(folder, 'cmyk.tif'));
    const report = await inks('cmyk.tif');
    expect(report.card.inks).toHaveLength(1 + INKS.length);
  });
  it('says what noise is', async () => {
    const pixels = Buffer.from(Array.from({ length: 3 * 64 * 64 }, (_, at) => (at * 7919 * (at + 13)) % 251));
    await sharp(pixels, { raw: { width: 64, height: 64, channels: 3 } })
      .png()
      .toFile(join(folder, 'noise.png'));
    const report = await inks('noise.png', { count: 4 });
    expect(report.judgement).toMatch(/^painted/);
    expect(report.card.inks).toHaveLength(4);
  });
  it('is given up where that is asked, and no card is left', async () => {
    await design().png().toFile(join(folder, 'flat.png'));
    await expect(inks('flat.png', {}, AbortSignal.abort())).rejects.toMatchObject({ kind: 'cancelled' });
    expect(await readdir(folder)).toEqual(['flat.png']);
  });
});
