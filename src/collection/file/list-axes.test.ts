import { describe, expect, it } from 'vitest';
import { numbers, palette, text } from '../../effect/parameter.ts';
import type { Shelf } from '../../host/plugins/shelf.ts';
import { nameOf } from '../plan/naming.ts';
import { openAxis } from './axes.ts';
import type { AxisEntry } from './schema.ts';

const effect = {
  name: 'check',
  parameters: {
    widths: numbers({ unit: 'mm', min: 1, max: 40, least: 1, most: 4, default: [12], help: 'Widths.' }),
    yarns: palette({ least: 1, most: 60, default: ['#ffffff'], help: 'Yarns.' }),
    order: text({
      ...{ pattern: '[A-L][0-9]+( [A-L][0-9]+)*', longest: 400, default: 'A24' },
      ...{ say: 'a thread order such as A24 B4', help: 'Order.' },
    }),
    // Where the host reads a number, a list of one is none.
    depth: { kind: 'number', unit: 'mm', min: 1, max: 40, default: 3, help: 'Depth.' },
  },
};
const shelf = { effects: new Map([['check', { effect }]]), faults: [] } as unknown as Shelf;
const open = (name: string, entry: unknown) => openAxis(name, entry as AxisEntry, shelf, '.');

function messageOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('nothing was refused');
}

describe('an axis of lists', () => {
  it('has a list for each value, in its own order', () => {
    const { values } = open('check.widths', [[12, 3], [3, 12], [7]]);
    expect(values.map(({ value }) => value)).toEqual([[12, 3], [3, 12], [7]]);
    expect(values.map(({ label }) => label)).toEqual(['12,3', '3,12', '7']);
    expect(open('check.yarns', [['#ffffff', '#1f3a5f']]).values[0].label).toBe('#ffffff,#1f3a5f');
  });
  it.each<[string, unknown, string]>([
    [
      'check.widths',
      [12, 3],
      'a list of lists, one for each value for check.widths but received 12. Write [[12]]',
    ],
    ['check.widths', ['12, 3'], 'Write [[12, 3]] for one value.'],
    ['check.yarns', ['#ffffff,#1f3a5f'], 'Write [["#ffffff", "#1f3a5f"]] for one value.'],
    ['check.widths', { from: 1, to: 3, step: 1 }, 'a list of lists'],
    ['check.widths', [[12], [3, 400]], 'number 2 of widths of check but received 400'],
    ['check.widths', [[12], [12]], '"12" twice'],
    [
      'check.depth',
      [[3]],
      'values that are no lists for check.depth but received [3]. Write its values side by side: [3].',
    ],
    ['seed', [['a', 'b']], 'Write its values side by side: ["a", "b"].'],
    ['check.order', [['A1', 'B2']], 'values that are no lists'],
    ['check.order', ['A1', 'b2'], 'Write "B2".'],
  ])('%s of %j is refused', (name, entry, told) => {
    expect(messageOf(() => open(name, entry))).toContain(told);
  });
});

describe('names made from lists and texts', () => {
  const named = (label: string) => nameOf('{tile}-{check.order}', { tile: 'sprig', 'check.order': label });
  it('are words that every system takes', () => {
    expect(named('A24 B4')).toBe('sprig-A24-B4');
    expect(named('#ffffff,#1f3a5f')).toBe('sprig-ffffff-1f3a5f');
  });
  it('stay short, and tell long ones apart', () => {
    const long = Array.from({ length: 60 }, (_, index) => `#${String(100_000 + index)}`).join(',');
    expect(named(long).length).toBeLessThan(70);
    expect(named(long)).not.toBe(named(`${long},#ffffff`));
    expect(named(long)).toMatch(/^sprig-100000-100001-.*-[0-9a-f]{8}$/);
  });
  it('leave the names of tiles as they are', () => {
    expect(nameOf('{tile}', { tile: 'a'.repeat(90) })).toBe('a'.repeat(90));
  });
});
