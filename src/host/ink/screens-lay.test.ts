import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sharedSamples } from '../../colour/frame.ts';
import { gridOfPixels } from '../../repeat/grid.ts';
import { parseLayout } from '../../repeat/layout.ts';
import { screenPicture } from './screen-picture.ts';
import { openScreens } from './screens.ts';

const CARD = `{ "card": "two", "inks": [
  { "name": "ground", "kind": "ground", "colour": "#f0e6d7" },
  { "name": "leaf", "kind": "ink", "colour": "#3c6e50" },
  { "name": "dusk", "kind": "ink", "colour": "#30343c", "covers": false }
] }`;

async function cardFile(text = CARD): Promise<string> {
  const path = join(await mkdtemp(join(tmpdir(), 'tenter-card-')), 'two.card.json');
  await writeFile(path, text);
  return path;
}

function frameOf(width: number, height: number, colourAt: (x: number, y: number) => readonly number[]) {
  const pixels = sharedSamples(4 * width * height, 8);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) pixels.set([...colourAt(x, y), 255], 4 * (y * width + x));
  return { pixels, width, height };
}

const flat = (x: number) => (x < 30 ? [0xf0, 0xe6, 0xd7] : [0x3c, 0x6e, 0x50]);
const artwork = frameOf(60, 40, flat);
const result = frameOf(60, 40, (x) => flat(x).map((value) => Math.round(0.7 * value)));
const grid = gridOfPixels({ layout: parseLayout('drop:1/2'), width: 6, height: 4 }, 60, 40);

describe('a picture of counted inks', () => {
  it("has the card's colours and overprints, each said with what prints it, and keeps its artwork", async () => {
    const before = artwork.pixels.slice();
    const screens = await openScreens({ card: await cardFile(), count: 2, way: 'own' });
    const { frame, facts } = await screenPicture({ artwork, result, grid }, screens);
    expect(artwork.pixels).toEqual(before);
    const found = new Set<string>();
    for (let at = 0; at < frame.pixels.length; at += 4)
      found.add(`#${Buffer.from(frame.pixels.subarray(at, at + 3)).toString('hex')}`);
    expect([...found].sort()).toEqual(facts.colours.map(({ colour }) => colour).sort());
    expect(facts.textureInks).toEqual(['dusk']);
    expect(facts.colours.map(({ inks }) => inks.join(' + '))).toEqual([
      'ground',
      'leaf',
      'dusk',
      'leaf + dusk',
    ]);
    expect(facts.colours.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1);
    expect(facts.difference.mean).toBeLessThan(6);
  });
  it('asks for inks that are on the card, and no more of them than screens', async () => {
    const card = await cardFile();
    await expect(openScreens({ card, count: 1 })).rejects.toThrow(/leaf into dusk|dusk into leaf/);
    await expect(openScreens({ card, count: 2, way: 'own', inks: ['lief'] })).rejects.toThrow(
      /Did you mean "leaf"/,
    );
    await expect(openScreens({ card, count: 2, way: 'bare', inks: ['leaf'] })).rejects.toThrow(/way "own"/);
    await expect(
      openScreens({
        card,
        count: 2,
        press: {
          gain: {
            table: [
              [50, 70],
              [60, 65],
            ],
          },
        },
      }),
    ).rejects.toThrow(/rise/);
  });
  it('refuses a ruling too fine for the density', async () => {
    const screens = await openScreens({
      card: await cardFile(),
      count: 2,
      dots: { shape: 'lines', ruling: 60 },
    });
    await expect(screenPicture({ artwork, result, grid }, screens)).rejects.toThrow(/lines per cm/);
  });
});
