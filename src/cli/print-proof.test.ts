import { expect, it, vi } from 'vitest';
import { Failed } from '../effect/prove/failed.ts';
import type { CheckName, CheckResult, ProofReport } from '../effect/prove/report.ts';
import { HOME } from '../effect/prove/trial.ts';
import { printProof } from './print-proof.ts';

function failed(check: CheckName, received: string): CheckResult {
  const parts = { expected: 'bleed to hold 0 to 8', received, remedy: 'Clamp it.' };
  return { check, promise: 'It holds.', status: 'failed', failure: new Failed(HOME, parts).failure };
}

function printed(...results: CheckResult[]): string {
  const report: ProofReport = { effect: 'halo', version: '1.0.0', proven: false, notReached: [], results };
  const log = vi.spyOn(console, 'log').mockImplementation(() => {});
  printProof(report, new Map(), new Map());
  const lines = log.mock.calls.map(([line]) => line);
  log.mockRestore();
  return lines.join('\n');
}

it('tells one fault once, though it is counted otherwise under another check', () => {
  const words = printed(
    failed('resolution', '8.1 at pixel (71, 0)'),
    failed('parameters', '8.2e0 at pixel (-22, -17)'),
  );
  expect(words.match(/Expected bleed/g)).toHaveLength(1);
  expect(words).toContain('The same fault as under "resolution": mend that first.');
  expect(words).toContain('2 promises not kept');
});

it('tells two faults in full', () => {
  const words = printed(failed('resolution', '8.1 at pixel (71, 0)'), failed('parameters', 'nothing'));
  expect(words.match(/Expected bleed/g)).toHaveLength(2);
  expect(words).not.toContain('same fault');
});
