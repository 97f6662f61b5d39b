import { describe, expect, it } from 'vitest';
import { formatLayout, parseLayout } from '../repeat/layout.ts';
import { checkSeams } from './check.ts';
import { closingHint, closingLayouts } from './closing.ts';

const SIDE = 240;

/** Dots strewn by a small generator, each with its copies over the lattice of a layout. */
function strewn(text: string): { pixels: Uint8Array; width: number; height: number } {
  const { kind, numerator, denominator } = parseLayout(text);
  const shift = (SIDE * numerator) / denominator;
  const pixels = new Uint8Array(4 * SIDE * SIDE).fill(255);
  const value = new Float64Array(SIDE * SIDE).fill(225);
  let state = 7;
  const next = () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
    return state / 0x80000000;
  };
  for (let dot = 0; dot < 90; dot++) {
    const [x, y, radius, dark] = [next() * SIDE, next() * SIDE, 8 + 14 * next(), 60 + 120 * next()];
    for (let across = -2; across <= 2; across++) {
      for (let down = -2; down <= 2; down++) {
        const middle = {
          x: x + across * SIDE + (kind === 'brick' ? down * shift : 0),
          y: y + down * SIDE + (kind === 'drop' ? across * shift : 0),
        };
        const within = (centre: number) =>
          [Math.max(0, Math.floor(centre - radius)), Math.min(SIDE - 1, Math.ceil(centre + radius))] as const;
        const [[left, right], [top, bottom]] = [within(middle.x), within(middle.y)];
        for (let row = top; row <= bottom; row++) {
          for (let column = left; column <= right; column++) {
            const distance = Math.hypot(column - middle.x, row - middle.y);
            const k = row * SIDE + column;
            if (distance < radius) value[k] = Math.min(value[k], 225 - dark * Math.min(1, radius - distance));
          }
        }
      }
    }
  }
  for (let k = 0; k < value.length; k++) pixels.fill(value[k], 4 * k, 4 * k + 3);
  return { pixels, width: SIDE, height: SIDE };
}

describe('the layouts that a picture closes over', () => {
  it.each(['straight', 'drop:1/2', 'brick:1/2', 'drop:1/3', 'brick:2/3'])(
    'begin with the one that it was drawn for: %s',
    (text) => {
      const picture = strewn(text);
      const found = closingLayouts(picture);
      expect(formatLayout(found[0].layout)).toBe(text);
      for (const { layout, grade } of found) expect(checkSeams(picture, layout).grade).toBe(grade);
      expect(closingHint(found)).toBe(`it closes over ${text}`);
    },
  );
  it('are several for what repeats more often, and are named in the hint', () => {
    const flat = { pixels: new Uint8Array(4 * SIDE * SIDE).fill(180), width: SIDE, height: SIDE };
    expect(closingHint(closingLayouts(flat))).toBe(
      'it closes over straight and over drop:1/2 and over brick:1/2',
    );
  });
  it('are only those whose offset meets whole pixels, and none for a picture too small to be judged', () => {
    const flat = (width: number, height: number) =>
      closingLayouts({ pixels: new Uint8Array(4 * width * height).fill(180), width, height }).map(
        ({ layout }) => formatLayout(layout),
      );
    expect(flat(101, 103).filter((text) => /^(drop|brick)/.test(text))).toEqual([]);
    expect(flat(4, 4)).toEqual([]);
  });
  it('that have mirror lines are told with a doubt, and only where there is no other', () => {
    const closes = (text: string) => ({ layout: parseLayout(text), grade: 'closes' as const });
    expect(closingHint([closes('turn'), closes('mirror-x')])).toBe('it closes over turn');
    expect(closingHint([closes('mirror-x')])).toContain('a cut is easily missed');
    expect(closingHint([{ layout: parseLayout('straight'), grade: 'look' }])).toBeUndefined();
  });
});
