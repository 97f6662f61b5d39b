import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { progressLine } from './progress.ts';

function stream(isTTY: boolean) {
  const written: string[] = [];
  return {
    written,
    out: { isTTY, write: (text: string) => written.push(text) } as never as NodeJS.WriteStream,
  };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('progressLine', () => {
  it('says how long it will take before long work begins, and nothing before short work', () => {
    for (const isTTY of [true, false]) {
      const { written, out } = stream(isTTY);
      const line = progressLine(out);
      line.expect(4.9, 3e6);
      expect(written).toEqual([]);
      line.expect(130, 900e6);
      expect(written).toEqual(['tenter: 900 megapixels, about 2 min 10 s (a first guess)\n']);
      line.clear();
    }
  });

  it('goes on telling where there is no terminal, also while nothing is heard', () => {
    const { written, out } = stream(false);
    const line = progressLine(out);
    line.expect(100, 900e6);
    written.length = 0;
    line.show(0.25, 'painting');
    expect(written).toEqual([]);
    vi.advanceTimersByTime(25_000);
    expect(written).toHaveLength(2);
    expect(written[1]).toMatch(/^25 % {2}painting, about \d+ (s|min.*) left\n$/);
    line.clear();
    vi.advanceTimersByTime(60_000);
    expect(written).toHaveLength(2);
  });

  it('takes the time left from the guess at first and from the pace at last', () => {
    const { written, out } = stream(true);
    const line = progressLine(out);
    line.expect(1000, 900e6);
    line.show(0, 'painting');
    expect(written.at(-1)).toContain('about 17 min left');
    vi.advanceTimersByTime(90_000);
    line.show(0.9, 'painting');
    // 90 s for nine tenths: 10 s more by the pace; the guess would say 910 s.
    expect(written.at(-1)).toContain('about 1 min 40 s left');
    line.show(1, 'writing');
    expect(written.at(-1)).not.toContain('left');
    line.clear();
  });

  it('is silent where it is asked to be', () => {
    const { written, out } = stream(false);
    const line = progressLine(out, true);
    line.expect(1000, 900e6);
    line.show(0.5, 'painting');
    vi.advanceTimersByTime(60_000);
    expect(written).toEqual([]);
  });
});
