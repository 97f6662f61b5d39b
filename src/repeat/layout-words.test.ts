import { expect, it } from 'vitest';
import { formatLayout, parseLayout } from './layout.ts';

it.each([
  ['drop', 'drop:1/2'],
  ['half-drop', 'drop:1/2'],
  ['half drop', 'drop:1/2'],
  ['Half Drop', 'drop:1/2'],
  ['halfdrop', 'drop:1/2'],
  ['half-drop repeat', 'drop:1/2'],
  ['1/2 drop', 'drop:1/2'],
  ['drop 1/2', 'drop:1/2'],
  ['quarter drop', 'drop:1/4'],
  ['quarter', 'drop:1/4'],
  ['half', 'drop:1/2'],
  ['third-drop', 'drop:1/3'],
  ['two thirds drop', 'drop:2/3'],
  ['three-quarter drop', 'drop:3/4'],
  ['brick', 'brick:1/2'],
  ['half brick', 'brick:1/2'],
  ['half-brick', 'brick:1/2'],
  ['third brick', 'brick:1/3'],
  ['brick: 2/5', 'brick:2/5'],
  ['block', 'straight'],
  ['square', 'straight'],
  ['straight repeat', 'straight'],
  ['full drop', 'straight'],
  ['mirror', 'mirror-xy'],
  ['mirrored', 'mirror-xy'],
  ['mirror x', 'mirror-x'],
  ['mirror_y', 'mirror-y'],
  ['turned', 'turn'],
  ['half turn', 'turn'],
  ['half-turn', 'turn'],
])('"%s" is %s', (words, shown) => {
  expect(formatLayout(parseLayout(words))).toBe(shown);
});

it.each([
  ['half-dorp', /Did you mean "half-drop"\?/],
  ['stright', /Did you mean "straight"\?/],
  ['mirror-z', /Did you mean "mirror-[xy]"\?/],
  ['dropp', /Did you mean "drop"\?/],
  ['brik', /Did you mean "brick"\?/],
  ['half-way', /half-drop/],
  ['x'.repeat(5000), /straight, half-drop/],
])('"%s" is refused with the nearest and the list', (words, told) => {
  expect(() => parseLayout(words)).toThrow(told);
  expect(() => parseLayout(words)).toThrow(/straight, half-drop \(drop:1\/2\)/);
});

it.each(['drop:0/1', 'drop:3/2', 'brick:1/65', 'drop 0/0'])('the fraction of "%s" is refused', (words) => {
  expect(() => parseLayout(words)).toThrow(/a fraction between 0 and 1/);
});

it.each(['straight half', 'mirror drop', 'drop half quarter', '1/2', ':', '', 'drop:1/2/3', 'drop:-1/2'])(
  '"%s" says nothing of the trade',
  (words) => {
    expect(() => parseLayout(words)).toThrow(/the layout/);
  },
);
