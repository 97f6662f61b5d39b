import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cardText, readCard } from './card-file.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'card-'));
});
afterAll(() => rm(folder, { recursive: true }));

const GROUND = { name: 'ground', kind: 'ground', colour: '#f3ead8', note: '' };
const LEAF = { name: 'leaf', kind: 'ink', colour: '#2F6F4F', covers: false };

async function read(inks: unknown, card = 'sprigs') {
  const path = join(folder, 'test.card.json');
  await writeFile(path, JSON.stringify({ card, inks }));
  return readCard(path);
}

describe('a shade card file', () => {
  it('is read, and written again as it was', async () => {
    const card = await read([GROUND, { ...LEAF, note: 'no, "4":5,"6"' }]);
    expect(card).toEqual({
      name: 'sprigs',
      inks: [
        { name: 'ground', kind: 'ground', colour: [243, 234, 216], covers: true, note: '' },
        { name: 'leaf', kind: 'ink', colour: [47, 111, 79], covers: false, note: 'no, "4":5,"6"' },
      ],
    });
    const path = join(folder, 'again.card.json');
    await writeFile(path, cardText(card));
    expect(await readCard(path)).toEqual(card);
  });
  it.each([
    [
      'the same name twice',
      [GROUND, LEAF, { ...LEAF, name: 'LEAF' }],
      /"LEAF" is the name of another ink too/,
    ],
    ['two grounds', [GROUND, { ...GROUND, name: 'other' }], /"ground" is the ground already/],
    ['a ground over an ink', [LEAF, GROUND], /it stands first/],
    ['no inks', [], /1 at least/],
    ['forty inks', Array.from({ length: 40 }, (_, i) => ({ ...LEAF, name: `leaf ${i}` })), /24 at most/],
    ['a colour in words', [{ ...LEAF, colour: 'green' }], /a colour written #rrggbb/],
    ['an empty name', [{ ...LEAF, name: ' ' }], /not empty/],
    ['a name of 41 letters', [{ ...LEAF, name: 'x'.repeat(41) }], /40 letters at most/],
    ['a name of two lines', [{ ...LEAF, name: 'a\nb' }], /without line breaks/],
    ['another word', [{ ...LEAF, screen: 4 }], /no such property/],
  ])('refuses %s', async (_, inks, words) => {
    await expect(read(inks)).rejects.toThrow(words);
  });
  it('tells other files of ours by what they hold', async () => {
    const path = join(folder, 'recipe.json');
    await writeFile(path, '{ "steps": [] }');
    await expect(readCard(path)).rejects.toThrow('a recipe');
    await expect(readCard(join(folder, 'none.json'))).rejects.toThrow('tenter inks TILE');
  });
});
