import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readCollection } from '../../collection/file/read.ts';
import { Fault } from '../../fault.ts';
import { testFolder } from '../../picture/testing/folder.ts';
import { readRecipe } from '../plugins/recipe.ts';

const folder = testFolder();

/** Keys that our files know, and such as mean something to the language. */
const KEYS = [
  ...['$schema', 'summary', 'steps', 'effect', 'mask', 'colours', 'picture', 'parameters', 'tiles'],
  ...['recipes', 'vary', 'except', 'output', 'seed', 'opacity', 'follow'],
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', ''],
];

const { value: shapes } = fc.letrec((tie) => ({
  leaf: fc.oneof(fc.string({ unit: 'binary' }), fc.double(), fc.integer(), fc.boolean(), fc.constant(null)),
  value: fc.oneof(
    { depthSize: 'small' },
    tie('leaf'),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.constantFrom(...KEYS), tie('value'), { maxKeys: 6 }),
  ),
}));

/** Any bytes, any JSON of our words, and whole files with a byte changed. */
const GOOD =
  '{ "summary": "One.", "tiles": [{ "picture": "a.png" }], "recipes": [{ "effect": "linen-weave" }], "steps": [{ "effect": "x", "parameters": { "a": 1 } }] }';
const contents = fc.oneof(
  fc.uint8Array({ maxLength: 200 }).map((bytes) => Buffer.from(bytes)),
  shapes.map((value) => Buffer.from(JSON.stringify(value))),
  fc.tuple(fc.nat(GOOD.length - 1), fc.nat(255)).map(([at, byte]) => {
    const bytes = Buffer.from(GOOD);
    bytes[at] = byte;
    return bytes;
  }),
);

it.each([
  ['a recipe', readRecipe],
  ['a collection', readCollection],
])('%s of any content is read, or refused in words', async (what, read) => {
  const path = join(folder, `${what.split(' ')[1]}.json`);
  await fc.assert(
    fc.asyncProperty(contents, async (bytes) => {
      writeFileSync(path, bytes);
      const error = await read(path).then(
        () => undefined,
        (thrown) => thrown,
      );
      if (error === undefined) return;
      expect(Fault.is(error), String(error?.stack)).toBe(true);
      expect(error).toMatchObject({ kind: 'input', subject: path });
    }),
    { numRuns: 400, seed: 17 },
  );
});
