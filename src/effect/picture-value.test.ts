import { expect, it } from 'vitest';
import { picture } from './parameter.ts';
import { changePath, isPictureValue, pictureName, readPictureValue, statedPixel } from './picture-value.ts';
import { parseValue } from './values.ts';

it.each([
  ['swatch.png', { path: 'swatch.png' }],
  ['a b/swatch@2x.png', { path: 'a b/swatch@2x.png' }],
  ['swatch.png@100x80mm', { path: 'swatch.png', size: { width: 100, height: 80 } }],
  ['swatch.png @ 10 x 8 cm', { path: 'swatch.png', size: { width: 100, height: 80 } }],
  ['swatch@2x.png@4in', { path: 'swatch@2x.png', size: { width: 101.6, height: 101.6 } }],
  ['swatch.png@254dpi', { path: 'swatch.png', density: 10 }],
  ['swatch.png@118px/cm', { path: 'swatch.png', density: 11.8 }],
  ['@me/swatch.png', { path: '@me/swatch.png' }],
  ['@100x80mm', { path: '@100x80mm' }],
  ['300dpi', { path: '300dpi' }],
])('reads %s', (value, read) => {
  expect(readPictureValue(value)).toEqual(read);
});

it('asks for the unit of a size, and tells a size that nobody can mean', () => {
  expect(() => readPictureValue('swatch.png@100x80')).toThrow(/Add the unit: 100x80mm/);
  expect(isPictureValue('swatch.png@0.2mm')).toBe(false);
  expect(isPictureValue('swatch.png@99999dpi')).toBe(false);
  for (const strange of ['', '  ', 'a\0b', 'x'.repeat(5000), 12, null])
    expect(isPictureValue(strange)).toBe(false);
});

it('is told with what it takes where it is none', () => {
  const parameters = { cloth: picture({ default: 'own.png', help: 'A picture.' }) };
  const read = (text: string) => parseValue('dyer', parameters, 'cloth', text);
  expect(read(' swatch.png@3cm ')).toBe('swatch.png@3cm');
  expect(() => read('')).toThrow(
    /the path of a picture, such as .* for cloth of dyer .*Give the path of a file/,
  );
  expect(() => read('swatch.png@100x80')).toThrow(/Add the unit: 100x80mm.*The default is own\.png/);
});

it('keeps what is stated where only the path changes', () => {
  expect(changePath('a/b.png@3cm', (path) => `../${path}`)).toBe('../a/b.png@3cm');
  expect(pictureName('a\\b/c d.png@3cm')).toBe('c d.png@3cm');
});

it('states the size of a pixel, which need not be square', () => {
  const px = { width: 200, height: 100 };
  expect(statedPixel(readPictureValue('a.png@100x80mm'), px)).toEqual({ x: 0.5, y: 0.8 });
  expect(statedPixel(readPictureValue('a.png@254dpi'), px)).toEqual({ x: 0.1, y: 0.1 });
  expect(statedPixel(readPictureValue('a.png'), px)).toBeUndefined();
});
