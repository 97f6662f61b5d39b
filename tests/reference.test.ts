import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
// @ts-expect-error a plain script without types
import { exportsOf, withReference } from '../.build/reference.mjs';

interface Field {
  readonly name: string;
  readonly title: string;
  readonly isOptional: boolean;
  readonly text: string;
}

interface Export {
  readonly name: string;
  readonly kind: 'function' | 'value' | 'type';
  readonly text: string;
  readonly fields: readonly Field[];
}

const items: readonly Export[] = exportsOf('tenter');
const page = readFileSync(new URL('../plugins/REFERENCE.md', import.meta.url), 'utf8');
const fields = items
  .filter(({ kind }) => kind === 'type')
  .flatMap((type) =>
    type.fields.map((field) => ({ ...field, place: `${type.name}.${field.name}`, whole: type.text })),
  );

/** What a number may be in or count: a unit, a range, or what there are so many of. */
const UNITS =
  /\b(mm|pixels?|rows|degrees|cells?|units?|per|times?|bits|deviation|share|0\.\.1|0 \(|-128|how many|numbers?|version|power|seeds?|count)\b|`unit`/i;

it('the page says what the docstrings say (npm run reference)', () => {
  expect(withReference(page)).toBe(page);
}, 60_000);

it('every name that an effect may import has a sentence', () => {
  expect(items.length).toBeGreaterThan(100);
  expect(items.filter(({ text }) => text === '').map(({ name }) => name)).toEqual([]);
});

it('every field of every type has a sentence', () => {
  expect(fields.length).toBeGreaterThan(150);
  expect(fields.filter(({ text }) => text === '').map(({ place }) => place)).toEqual([]);
});

it('every field that may be left out says what then holds', () => {
  const silent = fields.filter(
    ({ isOptional, text, whole }) => isOptional && !/\bdefault\b|absent/.test(`${text} ${whole}`),
  );
  expect(silent.map(({ place }) => place)).toEqual([]);
});

it('every number says what it is a number of', () => {
  const numbers = fields.filter(({ title }) => /^\w+\??: (number|ArrayLike|\w+Array)\b/.test(title));
  expect(numbers.length).toBeGreaterThan(80);
  expect(numbers.filter(({ text }) => !UNITS.test(text)).map(({ place }) => place)).toEqual([]);
});

it('what effects meet first stands on the page by name', () => {
  for (const word of ['planesFor?', 'may be async', 'square2: number', '`at: number`', 'above: Int32Array'])
    expect(page).toContain(word);
});

it.each(['README.md', 'COOKBOOK.md', 'REFERENCE.md'])('%s points only to headings that are there', (file) => {
  const text = readFileSync(new URL(`../plugins/${file}`, import.meta.url), 'utf8');
  const headings = [...page.matchAll(/^## (.+)$/gm)].map(([, title]) =>
    title.toLowerCase().replaceAll('`', '').replaceAll(' ', '-'),
  );
  const wanted = file === 'REFERENCE.md' ? /\]\(#([\w-]+)\)/g : /\]\(REFERENCE\.md#([\w-]+)\)/g;
  for (const [, anchor] of text.matchAll(wanted)) expect(headings).toContain(anchor);
});
