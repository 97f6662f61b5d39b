import { expect, it } from 'vitest';
import { parseHex } from '../colour/hex.ts';
import { parseValue } from '../effect/values.ts';
import { nearestName, suggestName } from '../nearest.ts';
import { parseDensity, parseSize } from '../repeat/length.ts';
import { parseOpacity } from './options.ts';
import { parseAngle, parseRuling } from './plate-options.ts';

it('what people write is taken, or answered with what to write', () => {
  expect(nearestName('linen', ['raw-silk', 'linen-weave'])).toBe('linen-weave');
  expect(nearestName('Wood', ['wet-into-wet', 'wood-grain'])).toBe('wood-grain');
  expect(suggestName('linen', ['linen-weave', 'linen-ground', 'raw-silk'])).toBe(
    'Did you mean "linen-weave" or "linen-ground"?',
  );
  expect(parseOpacity('60%')).toBe(0.6);
  expect([parseRuling('24/cm'), parseRuling('24'), parseRuling('24 per cm')]).toEqual([24, 24, 24]);
  expect(() => parseRuling('0/cm')).toThrow(/from 1 to 400/);
  expect([parseAngle('22°'), parseAngle('-7.5 deg')]).toEqual([22, -7.5]);
  expect(() => parseOpacity('160%')).toThrow(/from 0 to 1/);
  const depth = { kind: 'number', unit: 'ratio', min: 0, max: 1, default: 1, help: 'How deep.' } as const;
  expect(parseValue('ripple', { depth }, 'depth', '60 %')).toBe(0.6);
  expect(() => parseHex('f3ead8')).toThrow(/Write "#f3ead8", with the quotes/);
  expect(parseDensity('300 DPI')).toBeCloseTo(300 / 25.4);
  expect(() => parseSize('32x32')).toThrow(/Add the unit: 32x32mm, 32x32cm or 32x32in/);
});
