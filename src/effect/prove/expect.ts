import type { AnyEffect } from '../effect.ts';
import { type ProveOptions, proveEffect } from './prove.ts';
import type { ProofReport } from './report.ts';
import { describeTrial } from './trial.ts';

/**
 * For a test of an effect: passes where the effect is proven.
 *
 * @throws Error that lists every failure with its setting.
 */
export async function expectProven(effect: AnyEffect, options: ProveOptions = {}): Promise<ProofReport> {
  const report = await proveEffect(effect, options);
  if (!report.proven) throw new Error(describeFailures(report));
  return report;
}

/** Every failure of a report in words. */
export function describeFailures({ effect, version, results }: ProofReport): string {
  const lines = results.flatMap((result) =>
    result.status === 'failed'
      ? [`${result.check}: ${result.failure.sentence}\n    with ${describeTrial(result.failure.setting)}`]
      : [],
  );
  return [`${effect} ${version} does not keep its contract:`, ...lines].join('\n  ');
}
