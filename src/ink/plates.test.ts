import { describe, expect, it } from 'vitest';
import type { ShadeCard } from './card.ts';
import { bytesOfLight, proofRow } from './plate-proof.ts';
import { separate } from './plates.ts';
import { screenColours } from './screen-colours.ts';

const CARD: ShadeCard = {
  name: 'Dyes',
  inks: [
    { name: 'cloth', kind: 'ground', colour: [240, 232, 214], covers: true, note: '' },
    { name: 'madder', kind: 'ink', colour: [176, 62, 50], covers: false, note: '' },
    { name: 'woad', kind: 'ink', colour: [52, 84, 124], covers: false, note: '' },
  ],
};

function frameOf(colours: readonly (readonly [number, number, number])[]) {
  const pixels = new Uint8Array(colours.flatMap((colour) => [...colour, 255]));
  return { pixels, width: colours.length, height: 1 };
}

describe('plates of a picture of counted inks that do not cover', () => {
  const { colours } = screenColours(CARD, 'there', []);
  const tile = frameOf(colours.map(({ colour }) => colour));

  it('have all of both inks where one lies over the other, and none elsewhere', () => {
    const { planes } = separate(tile, CARD);
    const expected = [1, 2].map((ink) => colours.map(({ inks }) => (inks.includes(ink) ? 255 : 0)));
    expect(planes.map((plane) => [...plane])).toEqual(expected);
    expect(colours.some(({ inks }) => inks.length === 2)).toBe(true);
  });

  it('are the picture again to the byte', () => {
    const light = new Float32Array(3 * tile.width);
    const bytes = new Uint8Array(4 * tile.width);
    proofRow(separate(tile, CARD), CARD, 0, light);
    bytesOfLight(light, bytes);
    expect([...bytes]).toEqual([...tile.pixels]);
  });

  it('are unmixed as always where one colour is of no ink', () => {
    const { planes } = separate(frameOf([...colours.map(({ colour }) => colour), [200, 180, 160]]), CARD);
    const overprinted = colours.findIndex(({ inks }) => inks.length === 2);
    expect(planes[0][overprinted]).toBeLessThan(255);
  });
});
