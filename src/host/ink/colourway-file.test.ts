import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { colourwayNamed, readColourways } from './colourway-file.ts';
import { colourOfInk, readInksInForce } from './inks-in-force.ts';
import { inkedColour, inkedValues, isInkName } from './named-colours.ts';

let folder: string;
const CARD = {
  card: 'sprigs',
  inks: [
    { name: 'ground', kind: 'ground', colour: '#f3ead8' },
    { name: 'leaf', kind: 'ink', colour: '#2f6f4f' },
    { name: 'bed', kind: 'ink', colour: '#a0281e' },
  ],
};
const DUSK = { ground: '#2b2f45', Leaf: '#c6b078', bed: '#dc6e5a' };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tenter-ways-'));
  await writeFile(join(folder, 'sprigs.card.json'), JSON.stringify(CARD));
});
afterAll(() => rm(folder, { recursive: true }));

async function written(colourways: unknown, card: unknown = 'sprigs.card.json'): Promise<string> {
  const path = join(folder, 'ways.json');
  await writeFile(
    path,
    typeof colourways === 'string' ? colourways : JSON.stringify({ card, colourways }, null, 1),
  );
  return path;
}

describe('a colourway file', () => {
  it('names the inks of its card, in any order and case', async () => {
    const path = await written({ dusk: DUSK, dawn: { leaf: '#112233', rest: 'as on the card' } });
    const { card, colourways } = await readColourways(path);
    expect(card.name).toBe('sprigs');
    expect(colourways).toEqual([
      {
        name: 'dusk',
        colours: [
          [43, 47, 69],
          [198, 176, 120],
          [220, 110, 90],
        ],
      },
      {
        name: 'dawn',
        colours: [
          [243, 234, 216],
          [17, 34, 51],
          [160, 40, 30],
        ],
      },
    ]);
  });
  it.each<[string, unknown, RegExp]>([
    ['an ink that is missing', { dusk: { ground: '#2b2f45' } }, /no colour for "leaf", "bed".*"rest"/s],
    [
      'a name that is not on the card',
      { dusk: { ...DUSK, loaf: '#000000' } },
      /"loaf".*Did you mean "leaf"/s,
    ],
    ['an ink twice', { dusk: { ...DUSK, leaf: '#000000' } }, /"Leaf" is the same ink/],
    ['a colourway twice', { dusk: DUSK, Dusk: DUSK }, /"dusk" and "Dusk" are the same name/],
    [
      'a name twice',
      `{ "card": "sprigs.card.json", "colourways": { "dusk": {}, "dusk": {} } }`,
      /here twice/,
    ],
    ['no colour', { dusk: { ...DUSK, leaf: 'green' } }, /a colour written #rrggbb/],
    ['none at all', {}, /one colourway at least/],
    ['a rest that is none', { dusk: { rest: 'as before' } }, /a colour written #rrggbb/],
  ])('refuses %s', async (_, colourways, words) => {
    await expect(readColourways(await written(colourways))).rejects.toThrow(words);
  });
  it('says what is missing: itself, its card, or what it is', async () => {
    await expect(readColourways(join(folder, 'none.json'))).rejects.toThrow('"colourways"');
    await expect(readColourways(await written({ dusk: DUSK }, 'gone.json'))).rejects.toThrow('gone.json');
    await expect(readColourways(join(folder, 'sprigs.card.json'))).rejects.toThrow('a shade card');
    await expect(
      readColourways(await written(`{ "colourways": { "dusk": { "leaf": "#000000" } } }`)),
    ).rejects.toThrow('--card');
  });
  it('offers the nearest name', async () => {
    const file = await readColourways(await written({ dusk: DUSK, noon: DUSK }));
    expect(colourwayNamed(file, 'DUSK').name).toBe('dusk');
    expect(() => colourwayNamed(file, 'dask')).toThrow('Did you mean "dusk"?');
  });
});

describe('inks in force', () => {
  it('are those of the colourway, or the card’s own', async () => {
    const ways = await written({ dusk: DUSK });
    const card = join(folder, 'sprigs.card.json');
    const dusk = await readInksInForce({ ways, name: 'dusk' });
    expect(colourOfInk(dusk, 'Leaf', 'thread')).toBe('#c6b078');
    expect(colourOfInk(await readInksInForce({ card }), 'leaf', 'thread')).toBe('#2f6f4f');
    expect(dusk?.sources).toEqual([ways, card]);
    expect(await readInksInForce({})).toBeUndefined();
  });
  it('are none where nobody names a card, and that is said', async () => {
    expect(() => colourOfInk(undefined, 'leaf', 'thread of linen-weave')).toThrow(
      /"leaf", and no card.*--card/,
    );
    await expect(readInksInForce({ name: 'dusk' })).rejects.toThrow('--ways');
    const ways = await written({ dusk: DUSK });
    await expect(readInksInForce({ ways })).rejects.toThrow('--colourway with one of "dusk"');
  });
  it('stand for colours and lists of colours alone', async () => {
    const inks = await readInksInForce({ ways: await written({ dusk: DUSK }), name: 'dusk' });
    const help = '.';
    const parameters = {
      thread: { kind: 'colour', default: '#ffffff', help },
      yarns: { kind: 'colours', least: 1, most: 4, default: ['#ffffff'], help },
      weave: { kind: 'choice', options: ['leaf'], default: 'leaf', help },
    } as const;
    const values = { thread: 'leaf', yarns: ['bed', '#102030'], weave: 'leaf' };
    expect(inkedValues(parameters, values, inks, 'check')).toEqual({
      thread: '#c6b078',
      yarns: ['#dc6e5a', '#102030'],
      weave: 'leaf',
    });
    expect(() => inkedValues(parameters, { thread: 'lef' }, inks, 'check')).toThrow(
      /thread of check.*Did you mean "leaf"/,
    );
    // Without a card `bed` is a colour that lacks its sign.
    expect(isInkName('bed')).toBe(false);
    expect(inkedColour(inks, '#102030', '--ground')).toBe('#102030');
  });
});
