import { filterDeficiencyDeuter, filterDeficiencyProt, filterDeficiencyTrit, parse } from 'culori';
import { describe, expect, it } from 'vitest';
import { nearPairs, seenWith } from './vision.ts';

const THEIRS = {
  protan: filterDeficiencyProt(1),
  deutan: filterDeficiencyDeuter(1),
  tritan: filterDeficiencyTrit(1),
};
const ink = (name: string, colour: [number, number, number]) => ({
  ...{ name, colour },
  ...{ kind: 'ink' as const, covers: true, note: '' },
});

describe('deficient sight', () => {
  // Machado, Oliveira and Fernandes (2009), severity 1.0, are for linear light; the first column is what red becomes.
  it('takes red to the first column of the published matrices', () => {
    const [red, green, blue] = seenWith('protan', [255, 0, 0]);
    const decoded = [red, green, blue].map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
    expect(decoded[0]).toBeCloseTo(0.152286, 6);
    expect(decoded[1]).toBeCloseTo(0.114503, 6);
    expect(decoded[2]).toBe(0);
  });
  // culori 4.0.2, which is not ours, carries the same matrices, and multiplies encoded values by them; so we hold the
  // two where both agree: greys, and which of the others is the more alike.
  it.each(['protan', 'deutan', 'tritan'] as const)('leaves greys as they are, as culori does: %s', (seen) => {
    for (const grey of [0, 60, 128, 200, 255]) {
      const ours = seenWith(seen, [grey, grey, grey]);
      const their = THEIRS[seen](parse(`rgb(${grey},${grey},${grey})`)!) as {
        r: number;
        g: number;
        b: number;
      };
      [their.r, their.g, their.b].forEach((value, channel) => {
        expect(Math.abs(ours[channel] - value)).toBeLessThan(2e-3);
      });
    }
  });
  it('finds what only some cannot tell, and what nobody can', () => {
    const pairs = nearPairs([
      ink('red', [196, 86, 62]),
      ink('green', [119, 121, 58]),
      ink('white', [250, 250, 250]),
      ink('nearly white', [247, 250, 248]),
    ]);
    expect(pairs[0]).toMatchObject({ inks: ['white', 'nearly white'], seen: 'by all' });
    expect(pairs.slice(1).every(({ seen }) => seen !== 'by all')).toBe(true);
    expect(pairs.some(({ inks, seen }) => inks[0] === 'red' && seen !== 'tritan')).toBe(true);
  });
});
