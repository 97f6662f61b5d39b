import { describe, expect, it } from 'vitest';
import { Fault } from '../fault.ts';
import { bytesOfHex, formatHex, hexOfBytes, parseHex } from './hex.ts';

describe('hexadecimal colours', () => {
  it('reads long and short forms in either case', () => {
    expect(parseHex('#c8A2c8')).toEqual([200 / 255, 162 / 255, 200 / 255]);
    expect(parseHex(' #fa0 ')).toEqual(parseHex('#ffaa00'));
  });
  it('writes what it reads', () => {
    for (const text of ['#000000', '#ffffff', '#0109fe', '#8b4513'])
      expect(formatHex(parseHex(text))).toBe(text);
    expect(formatHex([-1, 0.5, 7])).toBe('#0080ff');
    expect(bytesOfHex('#0109fe')).toEqual([1, 9, 254]);
    expect(hexOfBytes([1, 9, 254])).toBe('#0109fe');
  });
  it.each(['', '#', 'ff0000', '#ff00', '#ggg', '#ff00001', 'red', '#ff0000ff'])('refuses %j', (text) => {
    let fault: unknown;
    try {
      parseHex(text, 'the paper');
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(Fault);
    expect((fault as Fault).kind).toBe('usage');
    expect((fault as Fault).message).toContain('the paper');
    expect((fault as Fault).message).toContain(`"${text}"`);
  });
});
