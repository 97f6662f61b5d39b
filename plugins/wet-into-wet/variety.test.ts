import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { correlation } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';

const folder = new URL('../../presets/wet-into-wet/', import.meta.url);
const presets = readdirSync(folder).map((file) => {
  const { summary, parameters } = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
  const made = makeWet(parameters, 'straight', '60x60mm', { dpi: 25.4, quality: 'sketch', seed: 'one' });
  const { load, tint } = paintWet(made, 0, 0, 60, 60);
  // A grey paint as it is seen in red and in blue light, the second paint multiplied over it.
  const seen = [0, 2].flatMap((channel) =>
    Array.from(load, (value, k) => 0.4 ** value * (1 - tint[4 * k + 3] * (1 - tint[4 * k + channel]))),
  );
  return { file, summary, seen };
});

describe('of one seed', () => {
  it('no two presets are one picture', () => {
    const alike = presets.flatMap((one, k) =>
      presets.slice(k + 1).map((other) => ({
        pair: `${one.file} ${other.file}`,
        likeness: correlation(one.seen, other.seen),
      })),
    );
    const worst = alike.reduce((a, b) => (a.likeness > b.likeness ? a : b));
    expect(worst.likeness, worst.pair).toBeLessThan(0.9);
  });

  it('nor do two say the same', () => {
    expect(new Set(presets.map(({ summary }) => summary)).size).toBe(presets.length);
  });
});
