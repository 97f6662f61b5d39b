import { parseTree } from 'jsonc-parser';
import { expect, it } from 'vitest';
import { Findings } from './findings.ts';

const KIND = { what: 'a list', remedy: 'Mend it.' };

it('a hundred thousand findings are told apart without each being held against all others', () => {
  const text = `{ "recipes": [\n${Array.from({ length: 100_000 }, () => '{}').join(',\n')}\n] }`;
  const findings = new Findings('many.json', text, parseTree(text), KIND);
  // Whatever walks through the whole text, or all others, for each of them takes minutes.
  for (let index = 0; index < 100_000; index++) findings.add(['recipes', index], 'wrong');
  for (let index = 0; index < 100_000; index++) findings.add(['recipes', index], 'wrong');
  expect(() => findings.throwIfAny()).toThrow(
    /100000 faults:\n {2}line 2, recipes\[0\]: wrong\n {2}line 3, /,
  );
}, 20_000);

it('lines are counted from 1, and a break belongs to the line that it ends', () => {
  const findings = new Findings('a.json', 'a\nb\n\nc', undefined, KIND);
  for (const offset of [0, 1, 2, 3, 4, 5, 9]) findings.addAt(offset, `at ${offset}`, 'x');
  expect(() => findings.throwIfAny()).toThrow(
    /line 1, at 0.*line 1, at 1.*line 2, at 2.*line 2, at 3.*line 3, at 4.*line 4, at 5.*line 4, at 9/s,
  );
});
