import { Fault } from '../fault.ts';
import { clampToUnit } from './srgb.ts';

/** Red, green and blue of encoded sRGB, each 0..255. */
export type RgbBytes = readonly [number, number, number];

/** Red, green and blue, each 0..1; whether encoded sRGB or linear light is said where it is used. */
export type Rgb = readonly [number, number, number];

/**
 * Reads `#rgb` or `#rrggbb` (sRGB, either case).
 *
 * @param subject What the colour is for, as the message should name it.
 * @returns Encoded sRGB.
 * @throws Fault (usage) for any other text.
 */
export function parseHex(text: string, subject = 'a colour'): Rgb {
  const digits = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(text.trim())?.[1];
  if (digits === undefined) {
    throw new Fault({
      kind: 'usage',
      expected: 'a colour such as #c8a2c8 or #fff',
      subject,
      received: `"${text}"`,
      remedy: /^([0-9a-f]{3}|[0-9a-f]{6})$/i.test(text.trim())
        ? `Write "#${text.trim()}", with the quotes.`
        : 'Write # and three or six hexadecimal digits.',
    });
  }
  const step = digits.length / 3;
  const channel = (index: number) => {
    const part = digits.slice(index * step, (index + 1) * step);
    return Number.parseInt(step === 1 ? part + part : part, 16) / 255;
  };
  return [channel(0), channel(1), channel(2)];
}

/** `#rrggbb` of an encoded sRGB colour; clamps. */
export function formatHex(encoded: Rgb): string {
  const digits = (value: number) =>
    Math.round(clampToUnit(value) * 255)
      .toString(16)
      .padStart(2, '0');
  return `#${encoded.map(digits).join('')}`;
}

/** `#rrggbb` of whole bytes. */
export function hexOfBytes([red, green, blue]: RgbBytes): string {
  return formatHex([red / 255, green / 255, blue / 255]);
}

/** Reads what `parseHex` reads, as bytes. */
export function bytesOfHex(text: string, subject?: string): RgbBytes {
  const [red, green, blue] = parseHex(text, subject);
  return [Math.round(255 * red), Math.round(255 * green), Math.round(255 * blue)];
}
