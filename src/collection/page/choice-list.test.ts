import { describe, expect, it } from 'vitest';
import { wordsOfList } from '../plan/select.ts';
import { listOf, printCommand } from './choice-list.ts';
import type { PageSwatch } from './data.ts';

const swatch = (name: string, address: string): PageSwatch => ({
  name,
  address,
  labels: {},
  facts: '',
  settings: [],
  notes: [],
});
const swatches = [
  swatch('sprig/linen-1.png', 'aa11'),
  swatch('no #1/linen.png', 'bb22'),
  swatch(' leaf.png', 'cc33'),
];
const data = {
  summary: 'Spring\n# all',
  key: '',
  axes: [],
  originals: [],
  room: '',
  file: "mother's day.json",
  swatches,
};

describe('the list of favourites', () => {
  it('reads back to the same renders, whatever is in their names', () => {
    expect(wordsOfList(listOf(data, swatches))).toEqual(['sprig/linen-1.png', 'bb22', 'cc33']);
  });
  it('says by what command it is rendered, in one word where the name has spaces', () => {
    expect(printCommand(data)).toBe(
      "tenter collect run 'mother'\\''s day.json' --only favourites.txt --dpi 300",
    );
    expect(listOf(data, []).split('\n')).toHaveLength(3);
  });
});
