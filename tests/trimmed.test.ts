import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { printProof } from '../src/cli/print-proof.ts';
import { printRender, type RenderPrint } from '../src/cli/print-render.ts';
import { commandFor } from '../src/cli/see-it.ts';
import type { ProofReport } from '../src/effect/prove/report.ts';
import { describeTrial, HOME } from '../src/effect/prove/trial.ts';
import { describeRecipe } from '../src/host/author/describe-recipe.ts';
import type { Shelf } from '../src/host/plugins/shelf.ts';

/** What the sum of decimal figures leaves in a double. */
const RAGGED = 2.8600000000000003;
const setting = { ...HOME, width: 31.000000000000004, parameters: { stripe: RAGGED } };

let printed: string[];
beforeEach(() => {
  printed = [];
  vi.spyOn(console, 'log').mockImplementation((line) => void printed.push(String(line)));
});
afterEach(() => void vi.restoreAllMocks());

function expectTrimmed(text: string, words: string): void {
  expect(text).toContain(words);
  expect(text).not.toMatch(/0000000|9999999/);
}

it('a setting that failed is told in figures as people write them, and its command too', () => {
  expectTrimmed(describeTrial(setting), 'stripe=2.86;');
  const failure = { sentence: 'It broke.', expected: '', received: '', remedy: '', setting };
  const results = [{ check: 'runs', promise: 'It runs.', status: 'failed', failure }];
  const report = { effect: 'wash', version: '1.0.0', proven: false, notReached: [], results };
  printProof(report as unknown as ProofReport, new Map(), new Map());
  expectTrimmed(printed.join('\n'), 'stripe=2.86;');
  expectTrimmed(commandFor('wash', setting), '--set stripe=2.86');
  expectTrimmed(commandFor('wash', setting), '--size 31x23.5mm');
});

it('a recipe is told in such figures', () => {
  const recipe = {
    summary: 'A wash.',
    steps: [{ effect: 'wash', parameters: { stripe: RAGGED, ends: 'round' } }],
  };
  const shelf = { effects: new Map(), faults: [] } as Shelf;
  expectTrimmed(describeRecipe(recipe, shelf).join('\n'), 'with stripe 2.86, ends round');
});

it('a render is told in such figures, and what came as it was asked is not told twice', () => {
  const report = {
    grid: {
      repeat: { layout: HOME_LAYOUT, width: 10, height: 10 },
      tileWidth: 9,
      tileHeight: 9,
      mmPerPixelX: 1,
    },
    seams: { summary: 'Closes.' },
    sizeFrom: 'given',
    timings: {},
    laidOn: [],
    ranges: [],
    reports: [
      [
        { name: 'stripe', value: 3, unit: 'mm', asked: RAGGED },
        { name: 'ends', value: 3.0000000000000004, unit: 'mm', asked: 3 },
      ],
    ],
    notes: [],
    warnings: [],
    bytes: 1,
    out: 'x.png',
  };
  const step = { effect: 'wash', opacity: 0.30000000000000004, blend: 'normal', order: { seed: '1' } };
  printRender({ title: 'wash alone', steps: [step], seed: '1', report } as unknown as RenderPrint);
  const text = printed.join('\n');
  expectTrimmed(text, 'stripe 3 mm (asked 2.86)');
  expectTrimmed(text, 'opacity 0.3');
  expect(text).toMatch(/ends 3 mm$/m);
});

const HOME_LAYOUT = { kind: 'straight', numerator: 0, denominator: 1 };
